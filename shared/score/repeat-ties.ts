import { compare, earlier, type Rational, ZERO } from '../theory/rational.ts';
import { heldOf, isOfLine } from './held-sounds.ts';
import type { ScoreBar, ScoreEvent } from './timeline.ts';

/**
 * Bars in which a sound that is tied out of a repeat's end is also held where the repeat begins, so that a tie leads into its first
 * note the second time; the first time nothing is struck there either. Where something is struck there anyway the sound ends with
 * it. Source: E. Gould, Behind Bars (2011), on ties and repeats, from memory.
 */
export function withRepeatTies(bars: readonly ScoreBar[]): readonly ScoreBar[] {
  let tied: ScoreBar[] | undefined;
  const starts = repeatStarts(bars);
  bars.forEach((bar, index) => {
    if (!closesRepeat(bar)) return;
    const start = starts[index] ?? 0;
    const first = (tied ?? bars)[start];
    const held = first === undefined || first.same ? [] : bar.events.flatMap((event) => heldAtStart(event, first));
    if (first === undefined || held.length === 0) return;
    tied ??= [...bars];
    tied[start] = { ...first, events: [...held, ...first.events] };
  });
  return tied ?? bars;
}

/** For each bar the one that a repeat would go back to that closes with it. */
export function repeatStarts(bars: readonly ScoreBar[]): readonly number[] {
  let start = firstFull(bars);
  return bars.map(({ opens, closes }, index) => {
    if (opens === '|:' || opens === ':|:') start = index;
    const own = start;
    if (closes === '|:' || closes === ':|:') start = index + 1;
    return own;
  });
}

/** True for a bar behind which the music goes back. */
export function closesRepeat(bar: Pick<ScoreBar, 'closes'> | undefined): boolean {
  return bar?.closes === ':|' || bar?.closes === ':|:';
}

function firstFull(bars: readonly ScoreBar[]): number {
  return Math.max(
    0,
    bars.findIndex(({ number }) => number !== undefined),
  );
}

function heldAtStart(event: ScoreEvent, first: ScoreBar): readonly ScoreEvent[] {
  if (event.goesOn !== true) return [];
  const held = heldOf(event, first.length, {});
  const own = first.events.filter((other) => isOfLine(other, held)).map(({ at }): Rational => at);
  const until = own.reduce(earlier, first.length);
  return compare(until, ZERO) === 0 ? [] : [{ ...held, length: until }];
}
