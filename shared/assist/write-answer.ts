import type { Answer } from '../lesson/asked/answer.ts';
import { questionIn } from '../lesson/asked/question.ts';
import type { LessonDocument } from '../lesson/document.ts';
import { entryIndexAt } from '../lesson/document.ts';
import { shifted } from '../text/span.ts';
import type { Writing } from './answers.ts';
import { scopeIn } from './entry-scope.ts';
import { writtenFamily } from './write-family.ts';
import { writtenTune } from './write-tune.ts';

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
    (what: string, count: number) => (one: { readonly why: string; readonly text: string }, at: number) => ({
      title: `Write ${what} ${at + 1} of ${count}: ${one.why}`,
      edits: [{ span, text: one.text }],
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
      .map((family) => ({ why: family.why, text: writtenFamily(place, statement, family) }))
      .map(writing('family', families.length));
  }
  if (question.kind === 'tune' && answer.kind === 'tune' && answer.found.ok && statement.kind === 'melody') {
    const { tunes } = answer.found;
    return tunes
      .map((tune) => ({ why: tune.why, text: writtenTune(place, statement, question.request, tune) }))
      .map(writing('tune', tunes.length));
  }
  return [];
}
