import { counted } from '../text/counted.ts';
import { type Meter, printMeter } from '../theory/meter.ts';
import { exactTick, frameOf, nearestTicks } from './column-rhythm.ts';
import { columnsOf } from './passage.ts';
import { bySteps, leadOf, type NotesOfBar, type StepReading } from './step-rhythm.ts';
import type { TabBar } from './tab-bars.ts';
import { TICKS_OF_COUNT, ticksOfBar } from './tick.ts';

/** When the notes of each bar begin, and how that was found, in words. */
export interface ColumnTimes {
  readonly ticks: ReadonlyMap<TabBar, readonly number[]>;
  readonly guess: string;
}

/**
 * Reads times from distances on the line. Bars that are equally wide are read together, then one by one; where nothing is even,
 * notes go to the nearest place.
 */
export function timesByColumns(bars: readonly TabBar[], meter: Meter): ColumnTimes {
  const notes = new Map(bars.map((bar) => [bar, notesOf(bar)] as const));
  const lead = leadOf([...notes.values()]);
  const ticks = new Map<TabBar, readonly number[]>();
  let guess: string | undefined;
  let isInexact = false;
  for (const [width, group] of byWidth(bars)) {
    const own = group.map((bar) => notes.get(bar) ?? NO_NOTES);
    const together = bySteps(own, lead, meter);
    const frame = frameOf(
      own.flatMap(({ columns }) => columns),
      width,
      meter,
    );
    for (const [index, bar] of group.entries()) {
      const written = own[index] ?? NO_NOTES;
      const steps = evenSteps(together, bar, written, lead, meter) ?? bySteps([written], lead, meter);
      if (steps !== undefined) {
        ticks.set(bar, (steps === together ? steps.ticks[index] : steps.ticks[0]) ?? []);
        guess ??= saidSteps(steps, meter);
        continue;
      }
      const fitting = frame ?? frameOf(written.columns, width, meter);
      isInexact ||= fitting === undefined;
      const { columns } = written;
      const exact = fitting && columns.map((column) => exactTick(column, fitting, meter));
      ticks.set(bar, exact ?? nearestTicks(columns, width, meter));
      guess ??= `${counted(fitting?.columns ?? width, 'column')} for the ${meter.counts} counts of a bar`;
    }
  }
  return { ticks, guess: `by columns, ${guess ?? ''}${isInexact ? ', some to the nearest place' : ''}` };
}

const NO_NOTES: NotesOfBar = { columns: [], width: 0 };

function byWidth(bars: readonly TabBar[]): ReadonlyMap<number, readonly TabBar[]> {
  const groups = new Map<number, TabBar[]>();
  for (const bar of bars) {
    const known = groups.get(bar.width);
    if (known === undefined) groups.set(bar.width, [bar]);
    else known.push(bar);
  }
  return groups;
}

function notesOf(bar: TabBar): NotesOfBar {
  return { columns: columnsOf(bar).map(({ column }) => column), width: bar.width };
}

/**
 * The reading of bars together; that of the bar alone, each fret taken for one column, where this gives steps and the columns as
 * written give none: writers leave as much room behind a fret of two figures as behind others.
 */
function evenSteps(
  together: StepReading | undefined,
  bar: TabBar,
  written: NotesOfBar,
  lead: number,
  meter: Meter,
): StepReading | undefined {
  if (together !== undefined && together.step !== 1) return together;
  const narrow = narrowed(bar, written);
  const alone = narrow === undefined ? undefined : bySteps([narrow], lead, meter);
  return alone !== undefined && alone.step > 1 ? alone : together;
}

/** The bar as if frets of two figures took one column; nothing where it has none. */
function narrowed(bar: TabBar, { columns, width }: NotesOfBar): NotesOfBar | undefined {
  const wide = new Set(
    bar.marks.filter(({ sound }) => 'fret' in sound && sound.fret >= 10).map(({ column }) => column),
  );
  if (wide.size === 0) return undefined;
  let before = 0;
  const moved = columns.map((column) => {
    const at = column - before;
    if (wide.has(column)) before += 1;
    return at;
  });
  return { columns: moved, width: width - before };
}

/** Names of written values, by how many make a whole note. */
const VALUES: Readonly<Record<number, string>> = {
  1: 'a whole note',
  2: 'a half note',
  4: 'a quarter',
  8: 'an eighth',
  16: 'a sixteenth',
  32: 'a thirty-second',
};

function saidSteps({ step, room, parts }: StepReading, meter: Meter): string {
  const behind =
    room === 0 ? '' : `, the first count ${room === 1 ? 'one column' : `${room} columns`} behind the bar line`;
  if (step === 0) return `the only note of a bar on its first count${behind}`;
  const value = VALUES[(parts * meter.unit) / meter.counts];
  const ticks = ticksOfBar(meter) / parts / TICKS_OF_COUNT;
  const length = value ?? `${Number(ticks.toFixed(2))} counts of ${printMeter(meter)}`;
  return `${step === 1 ? 'a column' : `${step} columns`} for ${length}${behind}`;
}
