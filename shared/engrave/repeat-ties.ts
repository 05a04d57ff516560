import { heldOf } from '../score/pass-bars.ts';
import type { ScoreBar, ScoreEvent } from '../score/timeline.ts';
import { compare, earlier, type Rational, ZERO } from '../theory/rational.ts';

/**
 * Bars in which a sound that is tied out of a repeat's end is also held where the repeat begins, so that a tie leads into its first
 * note the second time; the first time nothing is struck there either. Where something is struck there anyway the sound ends with
 * it. Source: E. Gould, Behind Bars (2011), on ties and repeats, from memory.
 */
export function withRepeatTies(bars: readonly ScoreBar[]): readonly ScoreBar[] {
  let tied: ScoreBar[] | undefined;
  let start = firstFull(bars);
  bars.forEach((bar, index) => {
    if (bar.opens === '|:' || bar.opens === ':|:') start = index;
    if (bar.closes === ':|' || bar.closes === ':|:') {
      const first = (tied ?? bars)[start];
      const held = first === undefined || first.same ? [] : bar.events.flatMap((event) => heldAtStart(event, first));
      if (first !== undefined && held.length > 0) {
        tied ??= [...bars];
        tied[start] = { ...first, events: [...held, ...first.events] };
      }
    }
    if (bar.closes === '|:' || bar.closes === ':|:') start = index + 1;
  });
  return tied ?? bars;
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
  const own = first.events.filter((other) => isSameLine(held, other)).map(({ at }): Rational => at);
  const until = own.reduce(earlier, first.length);
  return compare(until, ZERO) === 0 ? [] : [{ ...held, length: until }];
}

/** True where the other sound is of the same row of rhythm. */
function isSameLine(held: ScoreEvent, other: ScoreEvent): boolean {
  const layer = 'layer' in other ? other.layer : 'accompaniment';
  if (!('layer' in held) || held.layer !== layer) return false;
  return held.kind !== 'held' || held.voice === undefined || !('voice' in other) || other.voice === held.voice;
}
