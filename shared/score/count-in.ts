import { barLength, beatLength, beatsPerBar, type Meter } from '../theory/meter.ts';
import { compare, minus, plus, type Rational, rational, times, ZERO } from '../theory/rational.ts';
import type { ScoreBar } from './timeline.ts';

export interface Click {
  readonly at: Rational;
  /** The first of its bar. */
  readonly strong: boolean;
}

export interface CountIn {
  readonly clicks: readonly Click[];
  /** When the music begins, from the first click. Unit: whole notes. */
  readonly length: Rational;
}

/** One click for each beat of a full bar: two for 6/8, whose beat is a dotted quarter. */
export function clicksOf(meter: Meter): readonly Click[] {
  const beat = beatLength(meter);
  return Array.from({ length: beatsPerBar(meter) }, (_, index) => ({
    at: times(beat, rational(index)),
    strong: index === 0,
  }));
}

/**
 * What is clicked before the music begins with this bar: a full bar, and before a pickup also the beats of its own bar that are not
 * played. Source: common practice, no source.
 */
export function countInTo(first: Pick<ScoreBar, 'meter' | 'length' | 'number'>): CountIn {
  const full = barLength(first.meter);
  const clicks = clicksOf(first.meter);
  const isPickup = first.number === undefined && compare(first.length, full) < 0;
  const unplayed = isPickup ? minus(full, first.length) : ZERO;
  const further = clicks.filter(({ at }) => compare(at, unplayed) < 0);
  return {
    clicks: [...clicks, ...further.map(({ at, strong }) => ({ at: plus(full, at), strong }))],
    length: plus(full, unplayed),
  };
}
