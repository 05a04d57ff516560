import type { CodeLens } from 'vscode-languageserver';
import { type AskingStatement, asksSomething } from '../../shared/lesson/asked/question.ts';
import type { EditorCan } from '../editor-can.ts';
import type { OpenLesson } from '../open-lessons.ts';
import { SHOW_CANDIDATES, WRITE_BEST } from '../protocol/commands.ts';
import { toPosition } from '../to-protocol.ts';
import { questionAt } from './found-writings.ts';

/** Over each question of the lesson: writing the best answer, and seeing all of them, where the editor has what it takes. */
export function codeLenses(lesson: OpenLesson, can: EditorCan): CodeLens[] {
  const { entries, starts } = lesson.document;
  return entries.flatMap(({ statement }, index): CodeLens[] => {
    const offset = (starts[index] ?? 0) + statement.span.start;
    if (!asksSomething(statement) || questionAt(lesson, offset) === undefined) return [];
    const position = toPosition(lesson.text, offset);
    const range = { start: position, end: position };
    const place = [{ uri: lesson.uri, line: position.line }];
    const best = { range, command: { title: bestOf(statement), command: WRITE_BEST, arguments: place } };
    const all = { range, command: { title: 'Show them side by side', command: SHOW_CANDIDATES, arguments: place } };
    return [...(can.appliesEdits ? [best] : []), ...(can.showsSheets ? [all] : [])];
  });
}

function bestOf({ kind }: AskingStatement): string {
  return kind === 'family' ? 'Write the best family' : 'Write the best tune';
}
