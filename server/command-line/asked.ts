import type { Outcome } from '../../shared/text/problem.ts';
import { UsageError } from './terminal.ts';

/** What a bare shape or chord is held on: the instrument that most lessons are for. Common practice, no source. */
export const USUAL_INSTRUMENT = 'tenor ukulele, high G';

/** The value that a word of the call says; a `UsageError` in the words of its fault where it says none. `what` is the word's name. */
export function asked<T>(what: string, outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw new UsageError(`${what}: ${outcome.problem.message.replace(/\.$/, '')}`);
}
