import { familiesInSteps } from '../../voicing/family/families.ts';
import type { FamilyAnswer } from '../../voicing/family/request.ts';
import type { InSteps } from '../../voicing/in-steps.ts';
import { type TuneProposals, tunesInSteps } from '../../voicing/tune/propose-tune.ts';
import type { Question } from './question.ts';

/** What was found for a question. */
export type Answer =
  | { readonly kind: 'family'; readonly found: FamilyAnswer }
  | { readonly kind: 'tune'; readonly found: TuneProposals };

/** The answers that are known. Finding one takes long: who asks for one that is not known gets nothing, and may ask again later. */
export interface Answers {
  get(question: Question): Answer | undefined;
}

/** Where no question is answered. */
export const NO_ANSWERS: Answers = { get: () => undefined };

/** So many tunes are shown below each other. Common practice, no source. */
const MOST_TUNES_SHOWN = 3;

/** The answer to a question, from nothing. */
export function* answerInSteps(question: Question): InSteps<Answer> {
  if (question.kind === 'family') return { kind: 'family', found: yield* familiesInSteps(question.request) };
  return { kind: 'tune', found: yield* tunesInSteps(question.request, MOST_TUNES_SHOWN) };
}
