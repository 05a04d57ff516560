// placeholder: replaced by the core
import type { LessonDocument } from '../lesson/document.ts';
import type { Outcome } from '../text/problem.ts';
import type { Span, TextEdit } from '../text/span.ts';

export function definitionAt(_document: LessonDocument, _offset: number): Span | undefined {
  return undefined;
}

export function usesAt(_document: LessonDocument, _offset: number): readonly Span[] {
  return [];
}

export function renameSpanAt(_document: LessonDocument, _offset: number): Span | undefined {
  return undefined;
}

export function renameAt(_document: LessonDocument, _offset: number, name: string): Outcome<readonly TextEdit[]> {
  const span = { start: 0, end: name.length };
  return { ok: false, problem: { code: 'rename.nothing-here', message: 'There is no name to change here.', span } };
}
