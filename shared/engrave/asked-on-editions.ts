import type { Answer, Answers } from '../lesson/asked/answer.ts';
import { type Question, questionIn } from '../lesson/asked/question.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';

/**
 * What the lesson asks, asked anew on each edition in the same key, which has shapes of its own: in a sentence or two for each, what is
 * found there or why nothing is. In the same shapes what is chosen goes along as it is. What an edition cannot be asked is told by the
 * checks.
 */
export function askedOnEditions(scope: Scope, entry: Entry, answers: Answers): readonly string[] {
  return scope.editions().flatMap((edition): readonly string[] => {
    const { keeps, instrument } = edition.edition();
    if (keeps !== 'key') return [];
    const asked = questionIn(edition, entry);
    if (asked === undefined || asked.kind === 'not-yet' || asksOffTheStrings(asked.question)) return [];
    return [`On the ${instrument.name}, in the same key: ${told(answers.get(asked.question), asked.question)}`];
  });
}

/** A string that the instrument does not have cannot ring. */
function asksOffTheStrings(question: Question): boolean {
  if (question.kind !== 'family') return false;
  const { ring = [], instrument } = question.request;
  return ring.some((string) => string > instrument.openStrings.length);
}

function told(answer: Answer | undefined, { kind }: Question): string {
  if (answer === undefined) return kind === 'family' ? 'looking for shapes …' : 'looking for tunes …';
  if (answer.kind === 'tune')
    return answer.found.ok ? 'a tune is found there, too.' : `no tune. ${answer.found.message}`;
  if (answer.found.kind === 'none') return `no family. ${answer.found.reasons.join(' ')}`;
  const [best] = answer.found.families;
  return best === undefined ? 'no family.' : `${best.why}.`;
}
