import type { Answer } from '../lesson/asked/answer.ts';
import { questionIn } from '../lesson/asked/question.ts';
import { editDocument, entryIndexAt, type LessonDocument } from '../lesson/document.ts';
import { shifted, type TextEdit } from '../text/span.ts';
import type { Writing } from './answers.ts';
import { type ChordLine, newLine } from './chord-line.ts';
import { scopeIn } from './entry-scope.ts';
import { writtenFamily } from './write-family.ts';
import { writtenTune } from './write-tune.ts';
import type { WrittenText } from './written-place.ts';

/**
 * Writing down what was found for the question at the offset, best first, as one edit each that stands in place of the question; it
 * stays above as a remark, so that it can be asked again. Nothing where the answer is not one to that question, or where none was found.
 */
export function writingsOf(document: LessonDocument, offset: number, answer: Answer): readonly Writing[] {
  const index = entryIndexAt(document, offset);
  const entry = document.entries[index];
  const start = document.starts[index];
  if (entry === undefined || start === undefined) return [];
  const scope = scopeIn(document, entry);
  const asked = questionIn(scope, entry);
  if (asked?.kind !== 'question') return [];
  const { statement } = entry;
  const place = { document, scope, entry };
  const span = shifted(statement.span, start);
  const writing =
    (what: string, count: number) =>
    ({ why, text, usual }: WrittenText & { readonly why: string }, at: number): Writing => ({
      title: `Write ${what} ${at + 1} of ${count}: ${why}`,
      edits: [...besideOthers(document, usual), { span, text }],
    });
  const { question } = asked;
  if (
    question.kind === 'family' &&
    answer.kind === 'family' &&
    answer.found.kind === 'families' &&
    statement.kind === 'family'
  ) {
    const { families } = answer.found;
    return families
      .map((family) => ({ why: family.why, ...writtenFamily(place, statement, family) }))
      .map(writing('family', families.length));
  }
  if (question.kind === 'tune' && answer.kind === 'tune' && answer.found.ok && statement.kind === 'melody') {
    const { tunes } = answer.found;
    return tunes
      .map((tune) => ({ why: tune.why, ...writtenTune(place, statement, question.request, tune) }))
      .map(writing('tune', tunes.length));
  }
  return [];
}

/** Chord lines beside the others of the lesson, or above where they are first used, as one edit of the text as it is. */
function besideOthers(document: LessonDocument, lines: readonly ChordLine[]): readonly TextEdit[] {
  let written = document;
  for (const line of lines) {
    const user = written.entries.findIndex(({ text }) => text.split(/[\s|,@]+/).includes(line.text));
    written = editDocument(written, newLine(written, Math.max(0, user), line));
  }
  return written === document ? [] : [differenceOf(document.text, written.text)];
}

/** The smallest edit that makes one text of the other. */
function differenceOf(before: string, after: string): TextEdit {
  let start = 0;
  while (start < before.length && before[start] === after[start]) start += 1;
  let same = 0;
  while (same < before.length - start && before[before.length - 1 - same] === after[after.length - 1 - same]) same += 1;
  return { span: { start, end: before.length - same }, text: after.slice(start, after.length - same) };
}
