import { type LessonDocument, openDocument } from '../lesson/document.ts';
import { formatDocument } from '../lesson/format.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { TextEdit } from '../text/span.ts';
import { type ChordLine, lineEnd } from './chord-line.ts';

/** Where an answer is to be written: in place of the statement of an entry. */
export interface WrittenPlace {
  readonly document: LessonDocument;
  readonly scope: Scope;
  readonly entry: Entry;
}

/** What is written in place of the question, and lines that are wanted beside the lesson's other chord lines. */
export interface WrittenText {
  readonly text: string;
  readonly usual: readonly ChordLine[];
}

/** The question as it stands, as remarks: taken out of them it is asked again. Sentences for students are not part of it. */
export function remarked({ entry }: WrittenPlace): readonly string[] {
  const { span } = entry.statement;
  return entry.lines
    .filter((line) => line.kind === 'statement' && line.start < span.end)
    .map((line) => `// ${entry.text.slice(line.start, line.end).trimEnd()}`);
}

/** The sentences for students that stand under the question. */
export function sentencesOf({ entry }: WrittenPlace): readonly string[] {
  return entry.lines
    .filter((line) => line.kind === 'prose')
    .map((line) => `  ${entry.text.slice(line.start, line.end).trim()}`);
}

/** Lines laid out as the lesson's own are, parted by its line ends. */
export function laidOutText({ document }: WrittenPlace, lines: readonly string[]): string {
  const written = openDocument(lines.join('\n'));
  return applied(written.text, formatDocument(written)).trimEnd().replaceAll('\n', lineEnd(document.text));
}

function applied(text: string, edits: readonly TextEdit[]): string {
  return [...edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((done, { span, text: part }) => done.slice(0, span.start) + part + done.slice(span.end), text);
}
