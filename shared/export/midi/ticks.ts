import type { Rational } from '../../theory/rational.ts';

/** Parts of a quarter that a file counts: twos to a 256th, threes and fives come out whole. */
export const TICKS_PER_QUARTER = 960;

/** The tick nearest to a moment. Each is rounded by itself from its exact time, so that no error adds up. `time` in whole notes. */
export function tickAt({ numerator, denominator }: Rational): number {
  return Math.round((numerator * 4 * TICKS_PER_QUARTER) / denominator);
}
