import type { InlayHint, Range } from 'vscode-languageserver';
import type { Ghost } from '../../shared/assist/answers.ts';
import { ghostsOf } from '../../shared/assist/ghosts.ts';
import { toSpan } from '../from-protocol.ts';
import type { OpenLesson } from '../open-lessons.ts';
import { toPosition, toWireEdit } from '../to-protocol.ts';

/** What the tool assumed, within the range that the editor shows. */
export function inlayHints(lesson: OpenLesson, range: Range): InlayHint[] {
  return ghostsWithin(lesson, range).map((ghost) => {
    const position = toPosition(lesson.text, ghost.offset);
    return {
      position,
      // The distance to the text before is the editor's to give.
      label: ghost.text.trim(),
      tooltip: ghost.tooltip,
      paddingLeft: true,
      // Taken over by a double click.
      textEdits: ghost.write.edits.map((edit) => toWireEdit(lesson.text, edit)),
    };
  });
}

export function ghostsWithin(lesson: OpenLesson, range: Range): readonly Ghost[] {
  const shown = toSpan(lesson.text, range);
  return ghostsOf(lesson.document).filter(({ offset }) => offset >= shown.start && offset <= shown.end);
}
