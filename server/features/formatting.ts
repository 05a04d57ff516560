import type { Position, Range, TextEdit as WireEdit } from 'vscode-languageserver';
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

/** The edits for the statement that a position lies in. */
export function entryFormatting(lesson: OpenLesson, position: Position): WireEdit[] {
  const edits = formatEntryAt(lesson.document, toOffset(lesson.text, position));
  return edits.map((edit) => toWireEdit(lesson.text, edit));
}
