import type { StringSpare } from '../../hand/change-time.ts';
import type { HandStroke } from './exercise-bars.ts';

/** From when to when something is needed while a chord is held, from the start of the music. Unit: whole notes. */
interface Needed {
  /** The first stroke; the end of the chord where there is none. */
  readonly from: number;
  /** The last one, but for a weak one at the very end; the start of the chord where there is none. */
  readonly until: number;
}

/** When a chord needs the hand. */
export interface HeldTimes {
  /** By strokes that need the shape. */
  readonly hand: Needed;
  /** Each string in chart order, whether a finger stops it or not. */
  readonly strings: readonly Needed[];
}

/** The times of a chord of `stringCount` strings that is held from `start` to `end`; strokes in the order of their times. */
export function heldTimes(strokes: readonly HandStroke[], start: number, end: number, stringCount: number): HeldTimes {
  const held = strokes.slice(firstFrom(strokes, start), firstFrom(strokes, end));
  const needing = held.filter(({ needsShape }) => needsShape);
  const last = needing.at(-1);
  // Only the very last stroke may be let go.
  const letGo = last?.weak === true ? last : undefined;
  const until = (letGo === undefined ? last : needing.at(-2))?.at ?? start;
  return {
    hand: { from: needing[0]?.at ?? end, until },
    strings: Array.from({ length: stringCount }, (_, index) => {
      const struck = held.filter((stroke) => stroke.struck.includes(index));
      const from = struck[0]?.at ?? end;
      const lastStruck = struck.findLast((stroke) => stroke !== letGo);
      if (lastStruck?.ringing.includes(index) !== true) return { from, until: lastStruck?.at ?? start };
      const putOut = held.find(({ at, putOut }) => at > lastStruck.at && putOut.includes(index));
      // Nobody can hold a string until the next shape stands: it rings as long as anything is played on this one.
      return { from, until: putOut?.at ?? until };
    }),
  };
}

/** What the strings give beyond the time of the hand on the way to another chord, in seconds. Nothing where they give nothing. */
export function spareStrings(
  leaving: HeldTimes | undefined,
  arriving: HeldTimes | undefined,
  secondsOfWhole: number,
): readonly StringSpare[] | undefined {
  if (leaving === undefined || arriving === undefined) return undefined;
  const strings = leaving.strings.map(({ until }, index): StringSpare => {
    const from = arriving.strings[index]?.from ?? arriving.hand.from;
    return {
      before: Math.max(0, leaving.hand.until - until) * secondsOfWhole,
      after: Math.max(0, from - arriving.hand.from) * secondsOfWhole,
    };
  });
  return strings.some(({ before, after }) => before > 0 || after > 0) ? strings : undefined;
}

/** The place of the first stroke that is not before a time. */
function firstFrom(strokes: readonly HandStroke[], time: number): number {
  let low = 0;
  let high = strokes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((strokes[middle]?.at ?? 0) < time) low = middle + 1;
    else high = middle;
  }
  return low;
}
