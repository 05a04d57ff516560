import { type BarTime, endOf, onsetIn } from './bar-times.ts';
import type { ChordStretch, Stretch } from './ground.ts';
import type { BarRhythm } from './rhythm.ts';

/** A moment at which the tune has a note. */
export interface Slot {
  readonly bar: number;
  /** From the full bar's start. Unit: ticks of the bar. */
  readonly tick: number;
  /** From the start of the music, and how long until the next note, a rest or the end. Unit: ticks of the ground's meter. */
  readonly onset: number;
  readonly length: number;
  readonly stretch: ChordStretch;
  /** The first note over a chord that was not there before. */
  readonly isChange: boolean;
}

/** The notes of the rhythms, one rhythm for each bar, over the chords that they meet; where no chord is played there are none. */
export function slotsOf(
  stretches: readonly Stretch[],
  rhythms: readonly BarRhythm[],
  times: readonly BarTime[],
): readonly Slot[] {
  const moments = rhythms.flatMap((rhythm, bar) => {
    const time = times[bar];
    if (time === undefined) return [];
    const played = rhythm.filter((tick) => tick >= time.from && tick < time.to);
    return played.map((tick) => ({ bar, tick, onset: onsetIn(time, tick) }));
  });
  const rests = stretches.flatMap(({ bar, fromTick, inHand }) => {
    const time = times[bar];
    return inHand === undefined && time !== undefined ? [onsetIn(time, fromTick)] : [];
  });
  const ends = [...moments.map(({ onset }) => onset), ...rests, endOf(times)].sort((one, other) => one - other);
  let before: ChordStretch | undefined;
  return moments.flatMap((moment): readonly Slot[] => {
    const stretch = stretches.findLast(
      ({ bar, fromTick }) => bar < moment.bar || (bar === moment.bar && fromTick <= moment.tick),
    );
    if (stretch?.inHand === undefined) return [];
    const isChange = before !== undefined && before.inHand.key !== stretch.inHand.key;
    before = stretch;
    const end = ends.find((one) => one > moment.onset) ?? moment.onset;
    return [{ ...moment, length: end - moment.onset, stretch, isChange }];
  });
}
