import type { Feel } from '../lesson/syntax/words.ts';
import { playedBars } from '../score/played-bars.ts';
import { playedAt } from '../score/swing.ts';
import type { ScoreBar } from '../score/timeline.ts';
import { barLength } from '../theory/meter.ts';
import { compare, minus, plus, type Rational, ZERO } from '../theory/rational.ts';

/** A bar in its turn. Times from the start of the pass, in whole notes. */
export interface BarInTurn {
  readonly bar: ScoreBar;
  /** Its place among the written bars. */
  readonly index: number;
  /** Which time round its repeat it is, from 1. */
  readonly round: number;
  /** When it would begin if all were played as it is written; `soundingNotes` counts so. */
  readonly writtenStart: Rational;
  /** When it begins with its feel. */
  readonly start: Rational;
  readonly length: Rational;
}

/** The bars of a pass in the order in which they are played, each with its times. */
export function barsInTurn(bars: readonly ScoreBar[], feel: Feel): readonly BarInTurn[] {
  const turns: BarInTurn[] = [];
  let writtenStart: Rational = ZERO;
  let start: Rational = ZERO;
  for (const { index, round } of playedBars(bars)) {
    const bar = bars[index];
    if (bar === undefined) continue;
    const length = playedInBar(bar, feel, bar.length);
    turns.push({ bar, index, round, writtenStart, start, length });
    writtenStart = plus(writtenStart, bar.length);
    start = plus(start, length);
  }
  return turns;
}

/** When a written moment of a bar is played, from the start of the bar. A pickup is the end of a bar and swings like it. */
export function playedInBar(bar: ScoreBar, feel: Feel, written: Rational): Rational {
  const full = barLength(bar.meter);
  const isPickup = bar.number === undefined && compare(bar.length, full) < 0;
  const before = isPickup ? minus(full, bar.length) : ZERO;
  return minus(playedAt(feel, bar.meter, plus(before, written)), playedAt(feel, bar.meter, before));
}

/** When a moment counted as `writtenStart` counts is played, from the start of the pass. */
export function playedTime(turns: readonly BarInTurn[], feel: Feel, written: Rational): Rational {
  let low = 0;
  let high = turns.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (compare(turns[middle]?.writtenStart ?? ZERO, written) <= 0) low = middle;
    else high = middle - 1;
  }
  const turn = turns[low];
  return turn === undefined
    ? written
    : plus(turn.start, playedInBar(turn.bar, feel, minus(written, turn.writtenStart)));
}

/** How long a pass lasts. Unit: whole notes. */
export function lengthOf(turns: readonly BarInTurn[]): Rational {
  const last = turns.at(-1);
  return last === undefined ? ZERO : plus(last.start, last.length);
}
