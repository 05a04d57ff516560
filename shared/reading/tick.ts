import { type Meter, parseMeter } from '../theory/meter.ts';

/** A count is cut into so many ticks, so that it can be parted in two to eight, ten, twelve and sixteen. */
export const TICKS_OF_COUNT = 1680;

export function ticksOfBar(meter: Meter): number {
  return meter.counts * TICKS_OF_COUNT;
}

/** The meter whose bar has so many counts where the lesson's has others: six and more are eighths. Common practice, no source. */
export function meterOfCounts(counts: number, lesson: Meter): Meter {
  if (counts === lesson.counts) return lesson;
  return parseMeter(`${counts}/${counts >= 6 ? 8 : 4}`) ?? lesson;
}
