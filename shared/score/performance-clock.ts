import type { Feel } from '../lesson/syntax/words.ts';
import { barLength } from '../theory/meter.ts';
import { compare, minus, plus, type Rational, ZERO } from '../theory/rational.ts';
import { playedAt } from './swing.ts';
import type { ScoreBar } from './timeline.ts';

/** A time from the start of the music in whole notes: as it is played with the feel, and as it is written. */
export interface ExactMoment {
  readonly played: Rational;
  readonly even: Rational;
}

/** A bar in its turn, on both clocks. */
export interface TimedBar {
  readonly bar: ScoreBar;
  readonly at: ExactMoment;
}

/** What is not played of a pickup's bar: it is the end of a bar. Zero for any other. Unit: whole notes. */
export function unplayedBefore({ number, meter, length }: Pick<ScoreBar, 'number' | 'meter' | 'length'>): Rational {
  const full = barLength(meter);
  return number === undefined && compare(length, full) < 0 ? minus(full, length) : ZERO;
}

/** A place in a bar, as the feel moves it. Both from the start of the bar, in whole notes. */
export function playedInBar(bar: Pick<ScoreBar, 'number' | 'meter' | 'length'>, feel: Feel, at: Rational): Rational {
  const unplayed = unplayedBefore(bar);
  const moved = (time: Rational): Rational => playedAt(feel, bar.meter, time);
  return minus(moved(plus(unplayed, at)), moved(unplayed));
}

/** The bar that sounds at a written time, as an index into bars in order; the last where they are over. */
export function barAt(bars: readonly TimedBar[], even: Rational): number {
  let low = 0;
  let high = Math.max(0, bars.length - 1);
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (compare(bars[middle]?.at.even ?? ZERO, even) <= 0) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** A written time on both clocks; what goes on after the last bar ends with it. */
export function momentAt(bars: readonly TimedBar[], end: ExactMoment, feel: Feel, even: Rational): ExactMoment {
  const timed = bars[barAt(bars, even)];
  if (timed === undefined || compare(even, end.even) >= 0) return end;
  const { bar, at } = timed;
  return { played: plus(at.played, playedInBar(bar, feel, minus(even, at.even))), even };
}
