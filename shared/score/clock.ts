import { beatLength, type Meter } from '../theory/meter.ts';
import { type Rational, rational, toNumber } from '../theory/rational.ts';

/** A tempo: so many beats a minute, or so many of a note value where the lesson names one (8 for `180 eighths`). */
export interface Pace {
  readonly perMinute: number;
  readonly unit?: number;
}

/**
 * What a tempo counts: the note value that it names, else the beat of the meter in which the music begins. Where the meter changes,
 * note values keep their length. Common practice, no source: so it is read where no sign says otherwise. Unit: whole notes.
 */
export function countedBy({ unit }: Pick<Pace, 'unit'>, begins: Meter): Rational {
  return unit === undefined ? beatLength(begins) : rational(1, unit);
}

/** How long a stretch of music lasts that begins in a meter. `length` in whole notes. Unit of the result: ms. */
export function millisecondsOf(length: Rational, { perMinute, ...pace }: Pace, begins: Meter): number {
  const counted = countedBy(pace, begins);
  return (toNumber(length) * 60_000 * counted.denominator) / (perMinute * counted.numerator);
}
