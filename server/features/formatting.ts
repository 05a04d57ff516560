import type { Position, Range, TextEdit as WireEdit } from 'vscode-languageserver';
import { entryIndexAt } from '../../shared/lesson/document.ts';
import { formatDocument, formatEntryAt } from '../../shared/lesson/format.ts';
import { toOffset, toSpan } from '../from-protocol.ts';
import type { OpenLesson } from '../open-lessons.ts';
import { toWireEdit } from '../to-protocol.ts';

export function formatting(lesson: OpenLesson): WireEdit[] {
  return formatDocument(lesson.document).map((edit) => toWireEdit(lesson.text, edit));
}

/** The edits of the whole lesson's formatting that touch the range: a column is aligned whole or not at all. */
export function rangeFormatting(lesson: OpenLesson, range: Range): WireEdit[] {
  const wanted = toSpan(lesson.text, range);
  return formatDocument(lesson.document)
    .filter(({ span }) => span.start <= wanted.end && span.end >= wanted.start)
    .map((edit) => toWireEdit(lesson.text, edit));
}

/** The edits for the statement that a position lies in; null while the cursor is in it too. */
export function entryFormatting(lesson: OpenLesson, position: Position, cursor: Position): WireEdit[] | null {
  const offset = toOffset(lesson.text, position);
  const { document } = lesson;
  if (entryIndexAt(document, offset) === entryIndexAt(document, toOffset(lesson.text, cursor))) return null;
  return formatEntryAt(document, offset).map((edit) => toWireEdit(lesson.text, edit));
}
