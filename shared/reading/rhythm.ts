import { counted } from '../text/counted.ts';
import { type Meter, printMeter } from '../theory/meter.ts';
import { columnsOfCount } from './column-rhythm.ts';
import { timesByColumns } from './column-times.ts';
import { equalTicks, equalValue } from './equal-rhythm.ts';
import { columnsOf, type Moment, type Passage, type RhythmWish, type TimedBar, timedBar } from './passage.ts';
import { countOfLetters, meterOfCountLine, timeByCount } from './said-rhythm.ts';
import type { TabBar } from './tab-bars.ts';
import { meterOfCounts, TICKS_OF_COUNT, ticksOfBar } from './tick.ts';

/** A piece of tab at its times. */
export interface TimedPiece {
  /** The bars of each passage. */
  readonly passages: readonly (readonly TimedBar[])[];
  readonly meter: Meter;
  /** What was taken for granted, in words; absent where the text says the rhythm. */
  readonly guess?: string;
  /** True where letters over the tab did not add up, so that they say nothing. */
  readonly lettersUnread: boolean;
}

/** A line without inner bar lines that is wider than this, or has more notes, is several bars long. Unit: columns, notes after each other. */
const WIDEST_BAR = 32;
const MOST_NOTES = 16;

/** Gives every note of a piece its time: as its text says, and where it says nothing, as is wished. */
export function timePiece(passages: readonly Passage[], wish: RhythmWish, lesson: Meter): TimedPiece {
  const counts = passages.flatMap(({ count }) => count ?? []);
  const fullest = counts.reduce((most, count) => (count.counts > most.counts ? count : most), counts[0] ?? NO_COUNT);
  let meter = counts.length > 0 ? meterOfCountLine(fullest, lesson) : lesson;
  let lettersUnread = false;
  const said = passages.map((passage) => {
    if (passage.count !== undefined) return timeByCount(passage, passage.count, meter);
    if (passage.letters === undefined) return undefined;
    const read = countOfLetters(passage, meter);
    if (read === undefined || (counts.length > 0 && read.meter.counts !== meter.counts)) {
      lettersUnread = true;
      return undefined;
    }
    meter = read.meter;
    return timeByCount(passage, read.count, read.meter);
  });
  const silent = passages.filter((_, index) => said[index] === undefined);
  if (silent.length === 0) return { passages: said.map((bars) => bars ?? []), meter, lettersUnread };

  if (wish.kind === 'count' && said.every((bars) => bars === undefined)) meter = meterOfCounts(wish.counts, lesson);
  // Where another part of the text says a shorter bar, the wished counts do not fit into it.
  const fitting: RhythmWish = wish.kind === 'count' && wish.counts > meter.counts ? { kind: 'columns' } : wish;
  const guessed = isBarred(silent) ? timeBars(silent, fitting, meter) : timeStretch(silent, fitting, meter);
  let next = 0;
  return {
    passages: said.map((bars) => bars ?? guessed.passages[next++] ?? []),
    meter,
    lettersUnread,
    ...(guessed.guess === undefined ? {} : { guess: guessed.guess }),
  };
}

const NO_COUNT = { said: [], counts: 0, bars: 0 };

function isBarred(passages: readonly Passage[]): boolean {
  const fits = (bar: TabBar) => bar.width <= WIDEST_BAR && columnsOf(bar).length <= MOST_NOTES;
  return passages.some(({ bars }) => bars.length > 1) || passages.every(({ bars }) => bars.every(fits));
}

interface Guessed {
  readonly passages: readonly (readonly TimedBar[])[];
  readonly guess?: string;
}

/** Bar by bar. */
function timeBars(passages: readonly Passage[], wish: RhythmWish, meter: Meter): Guessed {
  const all = passages.flatMap(({ bars }) => bars);
  const columns = new Map(all.map((bar) => [bar, columnsOf(bar).map(({ column }) => column)] as const));
  if (wish.kind === 'equal') {
    const timed = (bar: TabBar) => timedBar(bar, equalTicks(columns.get(bar)?.length ?? 0, meter));
    return { passages: passages.map(({ bars }) => bars.map(timed)), guess: 'all notes of a bar equally long' };
  }
  const { ticks, guess } = timesByColumns(all, meter);
  const byColumns = (bar: TabBar): readonly number[] => ticks.get(bar) ?? [];
  if (wish.kind === 'columns') {
    return { passages: passages.map(({ bars }) => bars.map((bar) => timedBar(bar, byColumns(bar)))), guess };
  }
  let inexact = false;
  const timed = passages.map(({ bars }) =>
    bars.map((bar) => {
      const own = columns.get(bar) ?? [];
      if (own.length === wish.ticks.length) return timedBar(bar, wish.ticks);
      inexact = true;
      return timedBar(bar, onGrid(own, byColumns(bar), wish.ticks) ?? equalTicks(own.length, meter));
    }),
  );
  return {
    passages: timed,
    ...(inexact ? { guess: 'some bars have other notes than the count, and are fitted' } : {}),
  };
}

/** The places of the grid nearest to where the notes stand, each taken once; nothing where the grid has too few. */
function onGrid(
  notes: readonly number[],
  ticks: readonly number[],
  grid: readonly number[],
): readonly number[] | undefined {
  if (notes.length > grid.length) return undefined;
  let place = 0;
  return ticks.map((tick, note) => {
    const last = grid.length - (notes.length - note);
    while (place < last && Math.abs((grid[place + 1] ?? 0) - tick) < Math.abs((grid[place] ?? 0) - tick)) place += 1;
    const chosen = grid[place] ?? 0;
    place += 1;
    return chosen;
  });
}

/** Without bar lines the meter makes the bars. */
function timeStretch(passages: readonly Passage[], wish: RhythmWish, meter: Meter): Guessed {
  const full = ticksOfBar(meter);
  const stretches = passages.map(({ bars }) => {
    const start = bars[0]?.column ?? 0;
    const end = bars.at(-1);
    const notes = bars.flatMap((bar) =>
      columnsOf(bar).map(({ column, marks }) => ({ column: bar.column + column, marks })),
    );
    return { start, width: end === undefined ? 0 : end.column + end.width - start, notes };
  });
  const times: number[][] = [];
  let guess = 'all notes equally long';
  if (wish.kind === 'columns') {
    const distances = stretches.flatMap(({ notes }) =>
      notes.slice(1).map(({ column }, at) => column - (notes[at]?.column ?? 0)),
    );
    const perCount = columnsOfCount(distances, meter);
    guess = `by columns, ${counted(perCount, 'column')} for a count of ${printMeter(meter)}`;
    // The room before the first note of the first line is that of every line.
    const room = Math.min(...stretches.map(({ start, notes }) => (notes[0]?.column ?? start) - start));
    let counts = 0;
    for (const { start, width, notes } of stretches) {
      times.push(notes.map(({ column }) => Math.round((counts + (column - start - room) / perCount) * TICKS_OF_COUNT)));
      counts += Math.max(1, Math.ceil((width - room) / perCount));
    }
  } else {
    let note = 0;
    const timeOf = (index: number): number =>
      wish.kind === 'equal'
        ? index * equalValue(meter)
        : Math.floor(index / wish.ticks.length) * full + (wish.ticks[index % wish.ticks.length] ?? 0);
    for (const { notes } of stretches) times.push(notes.map(() => timeOf(note++)));
  }
  const cut = stretches.map((): OpenBar[] => []);
  let open: OpenBar | undefined;
  let bars = 0;
  for (const [passage, { start, notes }] of stretches.entries()) {
    for (const [index, { column, marks }] of notes.entries()) {
      const time = times[passage]?.[index] ?? 0;
      for (; open === undefined || bars <= Math.floor(time / full); bars += 1) {
        open = { moments: [], column: bars === 0 ? start : column, startTick: 0 };
        cut[passage]?.push(open);
      }
      open.moments.push({ tick: time % full, column, marks });
    }
  }
  const signed = cut.map((timed, passage) => withSigns(timed, passages[passage]?.bars ?? []));
  return { passages: signed, ...(wish.kind === 'count' ? {} : { guess }) };
}

interface OpenBar {
  readonly moments: Moment[];
  readonly column: number;
  readonly startTick: number;
}

/** Repeats that are drawn at the ends of a line without bar lines. */
function withSigns(timed: readonly OpenBar[], drawn: readonly TabBar[]): readonly TimedBar[] {
  const opens = drawn.some((bar) => bar.opens);
  const closing = drawn.find((bar) => bar.closes);
  return timed.map((bar, index) => ({
    ...bar,
    opens: opens && index === 0,
    closes: closing !== undefined && index === timed.length - 1,
    ...(closing?.times === undefined || index !== timed.length - 1 ? {} : { times: closing.times }),
  }));
}
