import type { Meter } from '../theory/meter.ts';
import { greatestCommonDivisor } from '../theory/rational.ts';
import { exactTick } from './column-rhythm.ts';
import { partsOfBar } from './equal-rhythm.ts';
import { TICKS_OF_COUNT, ticksOfBar } from './tick.ts';

/** Notes of a bar on its line. Unit: columns. */
export interface NotesOfBar {
  readonly columns: readonly number[];
  readonly width: number;
}

/** Bars read by the steps that their notes keep. */
export interface StepReading {
  /** For each bar, when its notes begin. */
  readonly ticks: readonly (readonly number[])[];
  /** The columns of a step; 0 where all notes stand at the same place. */
  readonly step: number;
  /** Columns before the first count. */
  readonly room: number;
  /** Steps in a bar. */
  readonly parts: number;
}

/**
 * Most columns behind a bar line that writers leave free before the first note: one or two dashes, for the eye. Common practice, no
 * source.
 */
const MOST_LEAD = 3;

/** The columns that a whole piece leaves free behind its bar lines: no bar begins earlier. Nothing where all begin late. */
export function leadOf(bars: readonly NotesOfBar[]): number {
  const least = bars.reduce((lead, { columns }) => Math.min(lead, columns[0] ?? lead), Number.POSITIVE_INFINITY);
  return least <= MOST_LEAD ? least : 0;
}

/**
 * Reads bars that are equally wide by their steps: the largest distance of which all distances of notes are multiples, counted from
 * the room that the piece leaves behind its bar lines. The first note after that room is on the first count; one that stands steps
 * later begins late. Where so many steps make a bar in written values (4, 8, 16), they do; else each step has the longest value for
 * which the bar has room, as with equal notes. Only where the room is a whole number of steps and a bar comes out without it is the
 * room a rest. Nothing where the notes keep no step but the single column and do not come out either.
 */
export function bySteps(bars: readonly NotesOfBar[], lead: number, meter: Meter): StepReading | undefined {
  const own = leadOf(bars);
  const [plain, late] = [framed(bars, lead), framed(bars, own)];
  const isRest = lead > 0 && lead % Math.max(1, plain.step) === 0;
  const bare = isRest ? framed(bars, 0) : undefined;
  return (
    inWrittenParts(plain, meter, ROOM_BEHIND) ??
    (bare === undefined ? undefined : inWrittenParts(bare, meter, 0)) ??
    inWrittenParts(late, meter, ROOM_BEHIND) ??
    onHalves(plain, meter) ??
    onHalves(late, meter) ??
    inRoomOfBar(plain, meter)
  );
}

/** Most columns that a bar may be longer or shorter than its steps. Unit: columns. */
const ROOM_BEHIND = 2;

/** Bars with their notes counted in steps from the end of the room before them. */
interface Framed {
  readonly bars: readonly NotesOfBar[];
  readonly room: number;
  readonly step: number;
  readonly width: number;
  /** The latest note, in steps. */
  readonly last: number;
}

function framed(bars: readonly NotesOfBar[], room: number): Framed {
  let step = 0;
  let latest = 0;
  for (const { columns } of bars) {
    for (const column of columns) {
      const distance = column - room;
      if (distance > 0) step = step === 0 ? distance : greatestCommonDivisor(step, distance);
      latest = Math.max(latest, distance);
    }
  }
  const width = (bars[0]?.width ?? 0) - room;
  return { bars, room, step, width, last: step === 0 ? 0 : latest / step };
}

/** Triplets of all counts are written, too. */
function isWritten(parts: number, meter: Meter): boolean {
  return partsOfBar(meter).includes(parts) || parts === meter.counts * 3;
}

function inWrittenParts(frame: Framed, meter: Meter, slack: number): StepReading | undefined {
  const { step, width, last } = frame;
  if (step === 0) return reading(frame, 1, meter);
  const most = Math.min(slack, step - 1);
  const found = [Math.floor(width / step), Math.ceil(width / step)].find(
    (parts) => parts > last && Math.abs(parts * step - width) <= most && isWritten(parts, meter),
  );
  return found === undefined ? undefined : reading(frame, found, meter);
}

/** Every note on a count or halfway to the next, as the columns have it. */
function onHalves({ bars, room, width, step }: Framed, meter: Meter): StepReading | undefined {
  if (width <= 0) return undefined;
  const ticks = bars.map(({ columns }) =>
    columns.map((column) => exactTick(column, { first: room, columns: width }, meter)),
  );
  const fits = ticks.every((own) => own.every((tick) => tick >= 0 && tick % (TICKS_OF_COUNT / 2) === 0));
  return fits ? { ticks, step, room, parts: width / step } : undefined;
}

/** Each step has the longest value for which the bar has room. */
function inRoomOfBar(frame: Framed, meter: Meter): StepReading | undefined {
  const { step, last } = frame;
  if (step < 2) return undefined;
  const parts = last + 1 === meter.counts * 3 ? last + 1 : partsOfBar(meter).find((many) => many > last);
  return parts === undefined ? undefined : reading(frame, parts, meter);
}

function reading({ bars, room, step }: Framed, parts: number, meter: Meter): StepReading {
  const tickOf = (column: number): number =>
    step === 0 ? 0 : Math.round((((column - room) / step) * ticksOfBar(meter)) / parts);
  return { ticks: bars.map(({ columns }) => columns.map(tickOf)), step, room, parts };
}
