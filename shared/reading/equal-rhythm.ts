import { beatsPerBar, isCompound, type Meter } from '../theory/meter.ts';
import { TICKS_OF_COUNT, ticksOfBar } from './tick.ts';

/**
 * When so many equal notes begin in a bar. They share it where that gives a value that is written; else they have the longest
 * value for which the bar has room, and the last is held to its end.
 */
export function equalTicks(notes: number, meter: Meter): readonly number[] {
  const parts = partsOfBar(meter).find((many) => many >= notes) ?? 2 ** Math.ceil(Math.log2(Math.max(1, notes)));
  const triplets = meter.counts * 3;
  const shared = notes === triplets && !isCompound(meter) ? triplets : parts;
  return Array.from({ length: notes }, (_, note) => Math.round((note * ticksOfBar(meter)) / shared));
}

/** Into how many even parts a bar is divided by written values, from long to short. */
export function partsOfBar(meter: Meter): readonly number[] {
  const { counts } = meter;
  const beats = beatsPerBar(meter);
  const halves = counts % 4 === 0 ? [1, 2] : isCompound(meter) ? [1, beats] : [1];
  return [...halves, counts, counts * 2, counts * 4, counts * 8].filter((parts, at, all) => all.indexOf(parts) === at);
}

/** How long each note is where no bar line divides the tab: an eighth. Common practice, no source. Unit: ticks. */
export function equalValue(meter: Meter): number {
  return meter.unit >= 8 ? TICKS_OF_COUNT : TICKS_OF_COUNT / 2;
}
