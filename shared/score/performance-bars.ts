import type { Feel } from '../lesson/syntax/words.ts';
import { barLength } from '../theory/meter.ts';
import { compare, minus, plus, type Rational, ZERO } from '../theory/rational.ts';
import { type Click, clicksOf, countInTo } from './count-in.ts';
import type { PerformedBar } from './performance.ts';
import { barAt, type ExactMoment, momentAt, playedInBar, type TimedBar, unplayedBefore } from './performance-clock.ts';
import { playedBars } from './played-bars.ts';
import type { ScoreBar } from './timeline.ts';

/** A performed bar before its times are counted in ticks. */
export interface ExactBar extends Omit<PerformedBar, 'at' | 'meter'> {
  readonly at: ExactMoment;
  /** What the tempo counts. Unit: whole notes. */
  readonly beat: Rational;
  readonly clicks: readonly Click[];
  readonly countIn: { readonly clicks: readonly Click[]; readonly length: ExactMoment };
}

/** One time through, its bars in their turn. */
export interface PerformedPass {
  readonly bars: readonly ExactBar[];
  readonly end: ExactMoment;
  /** The moment that is so far behind the start of the pass as it is written. Unit: whole notes. */
  readonly momentAt: (written: Rational) => ExactMoment;
  /** The bar that sounds then, counted from the first of the pass. */
  readonly barAt: (written: Rational) => number;
}

/** `beat` is what the tempo counts, in whole notes. */
export function performedBars(
  bars: readonly ScoreBar[],
  pass: number,
  feel: Feel,
  beat: Rational,
  start: ExactMoment,
): PerformedPass {
  const timed: TimedBar[] = [];
  const performed: ExactBar[] = [];
  let at = start;
  for (const { index } of playedBars(bars)) {
    const bar = bars[index];
    if (bar === undefined) continue;
    timed.push({ bar, at });
    performed.push({
      at,
      pass,
      written: index,
      ...(bar.number === undefined ? {} : { number: bar.number }),
      beat,
      clicks: clicksIn(bar),
      countIn: countInOf(bar, feel),
    });
    at = { played: plus(at.played, playedInBar(bar, feel, bar.length)), even: plus(at.even, bar.length) };
  }
  const end = at;
  const evenAt = (written: Rational): Rational => plus(start.even, written);
  return {
    bars: performed,
    end,
    momentAt: (written) => momentAt(timed, end, feel, evenAt(written)),
    barAt: (written) => barAt(timed, evenAt(written)),
  };
}

/** The beats of a bar: those of a pickup that are played, and those of the next where it is longer than its meter. */
function clicksIn(bar: ScoreBar): readonly Click[] {
  const full = barLength(bar.meter);
  const unplayed = unplayedBefore(bar);
  const clicks: Click[] = [];
  for (let start: Rational = ZERO; compare(minus(start, unplayed), bar.length) < 0; start = plus(start, full)) {
    for (const { at, strong } of clicksOf(bar.meter)) {
      const here = minus(plus(start, at), unplayed);
      if (compare(here, ZERO) >= 0 && compare(here, bar.length) < 0) clicks.push({ at: here, strong });
    }
  }
  return clicks;
}

/** A pickup that swings comes in where its note is played. */
function countInOf(bar: ScoreBar, feel: Feel): ExactBar['countIn'] {
  const { clicks, length } = countInTo(bar);
  const full = { meter: bar.meter, length: barLength(bar.meter), number: 1 };
  const played = plus(full.length, playedInBar(full, feel, minus(length, full.length)));
  return { clicks, length: { played, even: length } };
}
