import type { FoldingRange } from 'vscode-languageserver';
import { foldsOf } from '../../shared/assist/outline.ts';
import type { OpenLesson } from '../open-lessons.ts';
import { toRange } from '../to-protocol.ts';

export function folds(lesson: OpenLesson): FoldingRange[] {
  return foldsOf(lesson.document).flatMap((span) => {
    const { start, end } = toRange(lesson.text, span);
    // A stretch that ends with its line break ends, for the protocol, at the head of the next line.
    const endLine = end.character === 0 ? end.line - 1 : end.line;
    return endLine > start.line ? [{ startLine: start.line, endLine }] : [];
  });
}
