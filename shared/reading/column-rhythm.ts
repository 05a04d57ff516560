import { isCompound, type Meter } from '../theory/meter.ts';
import { greatestCommonDivisor } from '../theory/rational.ts';
import { equalTicks } from './equal-rhythm.ts';
import { TICKS_OF_COUNT, ticksOfBar } from './tick.ts';

/** Which columns of a bar are its time: so many from `first` on. Those before and behind only give room. */
export interface ColumnFrame {
  readonly first: number;
  readonly columns: number;
}

/** Most columns before the first note that are taken for room, and most that are taken off or put on behind. */
const MOST_ROOM = 3;
const ROOM_BEHIND = [-2, -1, 0, 1] as const;

/** What is paid for a column that is not time, before the notes, where most writers leave one, and behind. In the coin of parts. */
const COST_OF_ROOM = { before: 0.2, behind: 0.35 } as const;

/** What a place in a count costs, by the parts that the count is divided into. Others are not written. */
const COST_OF_PARTS: Readonly<Record<number, number>> = { 1: 0, 2: 1, 4: 2, 3: 2.5, 8: 4, 6: 4 };

/**
 * The frame in which notes of bars that are equally wide fall on the simplest counts; nothing where none is exact. A bar of
 * sixteen columns in 4/4 has four to a count; one of seventeen has a column of room.
 */
export function frameOf(columns: readonly number[], width: number, meter: Meter): ColumnFrame | undefined {
  const firstNote = Math.min(width, ...bounds(columns));
  const lastNote = Math.max(0, ...bounds(columns));
  let best: { readonly frame: ColumnFrame; readonly cost: number } | undefined;
  for (let first = 0; first <= Math.min(firstNote, MOST_ROOM); first += 1) {
    for (const room of ROOM_BEHIND) {
      const frame = { first, columns: width - first + room };
      if (frame.columns <= lastNote - first || frame.columns < 1) continue;
      const places = costOf(columns, frame, meter);
      if (places === undefined) continue;
      const cost = places + COST_OF_ROOM.before * first + COST_OF_ROOM.behind * Math.abs(room);
      if (best === undefined || cost < best.cost) best = { frame, cost };
    }
  }
  return best?.frame;
}

function bounds(columns: readonly number[]): readonly number[] {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const column of columns) {
    least = Math.min(least, column);
    most = Math.max(most, column);
  }
  return columns.length === 0 ? [] : [least, most];
}

/** The mean cost of the places of all notes. */
function costOf(columns: readonly number[], frame: ColumnFrame, meter: Meter): number | undefined {
  let sum = 0;
  for (const column of columns) {
    const tick = exactTick(column, frame, meter);
    if (!Number.isInteger(tick)) return undefined;
    const within = tick % TICKS_OF_COUNT;
    const parts = within === 0 ? 1 : TICKS_OF_COUNT / greatestCommonDivisor(TICKS_OF_COUNT, within);
    const cost = COST_OF_PARTS[parts];
    if (cost === undefined) return undefined;
    sum += cost;
  }
  return columns.length === 0 ? 0 : sum / columns.length;
}

export function exactTick(column: number, { first, columns }: ColumnFrame, meter: Meter): number {
  return ((column - first) * ticksOfBar(meter)) / columns;
}

/** Where no frame fits, each note goes to the nearest quarter of a count that is free; equal notes where there is no room. */
export function nearestTicks(columns: readonly number[], width: number, meter: Meter): readonly number[] {
  const first = columns[0] ?? 0;
  const frame = { first, columns: Math.max(1, width - first) };
  for (const parts of [4, 8]) {
    const step = TICKS_OF_COUNT / parts;
    let free = 0;
    const ticks = columns.map((column) => {
      const tick = Math.max(free, Math.round(exactTick(column, frame, meter) / step) * step);
      free = tick + step;
      return tick;
    });
    if (free <= ticksOfBar(meter)) return ticks;
  }
  return equalTicks(columns.length, meter);
}

/**
 * How many columns make a count where no bar line says it: four, so that a column is a sixteenth, or what makes the distances of
 * the notes come out evenly. Common practice, no source.
 */
export function columnsOfCount(distances: Iterable<number>, meter: Meter): number {
  let common = 0;
  for (const distance of distances) common = common === 0 ? distance : greatestCommonDivisor(common, distance);
  if (isCompound(meter)) return Math.max(2, common);
  if (common === 3) return 6;
  return Math.max(4, common);
}
