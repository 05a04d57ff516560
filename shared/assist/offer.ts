import type { Suggestion } from './answers.ts';

/** An offer before it is known which text it replaces. */
export type Offer = Omit<Suggestion, 'replaces' | 'insert'> & {
  readonly insert?: string;
  /** True where it takes the place of everything behind the keyword, as an instrument's name of several words does. */
  readonly wholeValue?: boolean;
};
