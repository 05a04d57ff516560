import { type DocumentHighlight, DocumentHighlightKind, type Location, type Position } from 'vscode-languageserver';
import { definitionAt, usesAt } from '../../shared/assist/definition.ts';
import type { Span } from '../../shared/text/span.ts';
import { toOffset } from '../from-protocol.ts';
import type { OpenLesson } from '../open-lessons.ts';
import { toRange } from '../to-protocol.ts';

export function definition(lesson: OpenLesson, position: Position): Location | null {
  const span = definitionAt(lesson.document, toOffset(lesson.text, position));
  return span === undefined ? null : { uri: lesson.uri, range: toRange(lesson.text, span) };
}

export function references(lesson: OpenLesson, position: Position, options: { withDefinition: boolean }): Location[] {
  const offset = toOffset(lesson.text, position);
  const own = definitionAt(lesson.document, offset);
  return usesAt(lesson.document, offset)
    .filter((use) => options.withDefinition || !isSame(use, own))
    .map((use) => ({ uri: lesson.uri, range: toRange(lesson.text, use) }));
}

export function highlights(lesson: OpenLesson, position: Position): DocumentHighlight[] {
  const offset = toOffset(lesson.text, position);
  const own = definitionAt(lesson.document, offset);
  return usesAt(lesson.document, offset).map((use) => ({
    range: toRange(lesson.text, use),
    kind: isSame(use, own) ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
  }));
}

function isSame(one: Span, other: Span | undefined): boolean {
  return one.start === other?.start && one.end === other.end;
}
