import { type Rational, rational } from './rational.ts';

/** A meter as written: `4/4`. Counts are what is said, beats what the foot does; in compound meters they differ. */
export interface Meter {
  /** The upper figure. */
  readonly counts: number;
  /** The lower figure: 4 for quarters, 8 for eighths. */
  readonly unit: number;
}

export const COMMON_TIME: Meter = { counts: 4, unit: 4 };

/** Length of a full bar in whole notes. */
export function barLength(meter: Meter): Rational {
  return rational(meter.counts, meter.unit);
}

/** Length of one count in whole notes: the lower figure. */
export function countLength(meter: Meter): Rational {
  return rational(1, meter.unit);
}

/**
 * True for 6/8, 9/8, 12/8 and the like, whose beat is three counts.
 * Source: traditional counting of compound meters, as in the general article on counting in music (facts of the trade).
 */
export function isCompound(meter: Meter): boolean {
  return meter.unit >= 8 && meter.counts > 3 && meter.counts % 3 === 0;
}

/** Length of one beat in whole notes: a quarter in 4/4, a dotted quarter in 6/8. */
export function beatLength(meter: Meter): Rational {
  return isCompound(meter) ? rational(3, meter.unit) : rational(1, meter.unit);
}

/**
 * What a tempo counts: the note value that it names, 8 for an eighth, else the beat of the meter in which the music begins. Where the
 * meter changes, note values keep their length. Common practice, no source: so it is read where no sign says otherwise. Unit: whole
 * notes.
 */
export function countedBy({ unit }: { readonly unit?: number }, begins: Meter): Rational {
  return unit === undefined ? beatLength(begins) : rational(1, unit);
}

export function beatsPerBar(meter: Meter): number {
  return isCompound(meter) ? meter.counts / 3 : meter.counts;
}

export function printMeter(meter: Meter): string {
  return `${meter.counts}/${meter.unit}`;
}

/** More counts in a bar than any music is written with; a slip of the hand would else make bars that no page can hold. */
const MOST_COUNTS = 32;

/** Reads `3/4`; undefined when it is no meter. The upper figure is 1 to 32, the lower a power of two up to 32. */
export function parseMeter(text: string): Meter | undefined {
  const match = /^(\d{1,2})\/(\d{1,2})$/.exec(text);
  if (match === null) return undefined;
  const counts = Number(match[1]);
  const unit = Number(match[2]);
  if (counts < 1 || counts > MOST_COUNTS || ![1, 2, 4, 8, 16, 32].includes(unit)) return undefined;
  return { counts, unit };
}
