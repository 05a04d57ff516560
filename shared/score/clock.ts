import { countedBy, type Meter } from '../theory/meter.ts';
import { type Rational, toNumber } from '../theory/rational.ts';

/** A tempo: so many beats a minute, or so many of a note value where the lesson names one (8 for `180 eighths`). */
export interface Pace {
  readonly perMinute: number;
  readonly unit?: number;
}

/** How long a stretch of music lasts that begins in a meter. `length` in whole notes. Unit of the result: ms. */
export function millisecondsOf(length: Rational, { perMinute, ...pace }: Pace, begins: Meter): number {
  const counted = countedBy(pace, begins);
  return (toNumber(length) * 60_000 * counted.denominator) / (perMinute * counted.numerator);
}
