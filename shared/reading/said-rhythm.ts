import { beatsPerBar, isCompound, type Meter } from '../theory/meter.ts';
import type { CountLine, SaidAt } from './count-line.ts';
import { columnsOf, type Moment, type Passage, type TimedBar } from './passage.ts';
import type { RhythmLetter } from './rhythm-letters.ts';
import type { TabBar } from './tab-bars.ts';
import { meterOfCounts, TICKS_OF_COUNT, ticksOfBar } from './tick.ts';

/** The meter that counts are said in. In 6/8 a count to two says beats. */
export function meterOfCountLine({ counts }: CountLine, lesson: Meter): Meter {
  return isCompound(lesson) && counts <= beatsPerBar(lesson) ? lesson : meterOfCounts(counts, lesson);
}

/** The bars of a passage as its count line says them. */
export function timeByCount({ bars }: Passage, count: CountLine, meter: Meter): readonly TimedBar[] {
  const beats = isCompound(meter) && count.counts <= beatsPerBar(meter) ? meter.counts / beatsPerBar(meter) : 1;
  const said = count.said.map((word) => ({ ...word, tick: word.tick * beats, length: word.length * beats }));
  const moments: Moment[][] = Array.from({ length: count.bars }, () => []);
  let at = 0;
  let last = { bar: -1, tick: -1 };
  const asides = asidesOf(bars, said);
  for (const [index, bar] of bars.entries()) {
    for (const { column, marks } of columnsOf(bar)) {
      const absolute = bar.column + column;
      const under = absolute - (asides[index] ?? 0);
      while (said[at + 1] !== undefined && (said[at + 1]?.column ?? 0) <= under) at += 1;
      const word = said[at];
      if (word === undefined) continue;
      let tick = tickWithin(word, said[at + 1] ?? nextOfLast(said), under);
      // Notes that follow each other on the line follow each other in time, however the words stand over them.
      if (word.bar === last.bar && tick <= last.tick) tick = last.tick + TICKS_OF_COUNT / 16;
      last = { bar: word.bar, tick };
      moments[word.bar]?.push({ tick, column: absolute, marks });
    }
  }
  const firsts = Array.from<SaidAt | undefined>({ length: count.bars });
  for (const word of said) firsts[word.bar] ??= word;
  const signs = signsOf(
    bars,
    firsts.map((word) => word?.column ?? 0),
  );
  return moments.map((played, index) => ({
    moments: played,
    column: firsts[index]?.column ?? 0,
    startTick: firsts[index]?.tick ?? 0,
    ...(signs[index] ?? NO_SIGNS),
  }));
}

/** From so many notes on, a bar of its own shows that its words stand a column aside. */
const NOTES_THAT_SHOW = 3;

/**
 * How many columns the notes of each bar stand to the right of their words, where a line is a little out of place: no note has a word
 * at its column, and each has one a column to the same side. Of two such sides, the one that has a note on the first count.
 */
function asidesOf(bars: readonly TabBar[], said: readonly SaidAt[]): readonly number[] {
  const words = new Map(said.map((word) => [word.column, word] as const));
  const notes = bars.map((bar) => columnsOf(bar).map(({ column }) => bar.column + column));
  const isAside = notes.every((columns) => columns.every((column) => !words.has(column)));
  return notes.map((columns) => {
    if (columns.some((column) => words.has(column))) return 0;
    if (columns.length < (isAside ? 1 : NOTES_THAT_SHOW)) return 0;
    const fitting = [1, -1].filter((aside) => columns.every((column) => words.has(column - aside)));
    const onFirst = fitting.find((aside) => columns.some((column) => words.get(column - aside)?.tick === 0));
    return onFirst ?? fitting[0] ?? 0;
  });
}

/** Where a further word would stand, as far from the last as that is from the one before it. */
function nextOfLast(said: readonly SaidAt[]): SaidAt | undefined {
  const [before, last] = said.slice(-2);
  return before === undefined || last === undefined ? undefined : { ...last, column: 2 * last.column - before.column };
}

/** Between two words time goes as the columns go, to the eighth of a word. */
function tickWithin(word: SaidAt, next: SaidAt | undefined, column: number): number {
  if (column <= word.column) return word.tick;
  const width = next === undefined || next.column <= word.column ? 8 : next.column - word.column;
  const part = Math.min(0.875, (column - word.column) / width);
  const parts = [2, 3, 4, 8].find((many) => Math.abs(part * many - Math.round(part * many)) < 1e-9) ?? 8;
  return Math.round(word.tick + (Math.min(parts - 1, Math.round(part * parts)) * word.length) / parts);
}

type Signs = Pick<TimedBar, 'opens' | 'closes' | 'times'>;
const NO_SIGNS: Signs = { opens: false, closes: false };

/** Columns that the first word of a bar may stand before its bar line, where lines are a little out of place. */
const SLACK = 1;

/** The repeats that are drawn at each counted bar, whose first words stand at these columns. */
function signsOf(bars: readonly TabBar[], firsts: readonly number[]): readonly Signs[] {
  const signs = firsts.map(() => NO_SIGNS);
  let from = 0;
  let to = 0;
  for (const { column, width, opens, closes, times } of bars) {
    while (from < firsts.length - 1 && (firsts[from] ?? 0) < column - SLACK) from += 1;
    while (to < firsts.length - 1 && (firsts[to + 1] ?? 0) < column + width - SLACK) to += 1;
    if (opens) signs[from] = { ...(signs[from] ?? NO_SIGNS), opens: true };
    if (closes) {
      signs[to] = { opens: signs[to]?.opens ?? false, closes: true, ...(times === undefined ? {} : { times }) };
    }
  }
  return signs;
}

/**
 * The count that letters of note values make, bar by bar; nothing where the bars do not add up. Only the first bar may be shorter, as
 * a pickup, and the last.
 */
export function countOfLetters(
  { bars, letters = [] }: Passage,
  lesson: Meter,
): { readonly count: CountLine; readonly meter: Meter } | undefined {
  if (!standOverNotes(bars, letters)) return undefined;
  const unbarred = bars.length === 1;
  const sums = bars.map(() => 0);
  const placed: { column: number; bar: number; tick: number; length: number }[] = [];
  let bar = 0;
  for (const { column, ticks } of letters) {
    while (bar + 1 < bars.length && column >= (bars[bar + 1]?.column ?? 0) - 1) bar += 1;
    placed.push({ column, bar, tick: sums[bar] ?? 0, length: ticks });
    sums[bar] = (sums[bar] ?? 0) + ticks;
  }
  if (unbarred) return cutLetters(placed, lesson);
  const full = Math.max(...sums);
  if (full === 0 || sums.some((sum, index) => sum !== full && index !== 0 && index !== sums.length - 1))
    return undefined;
  const quarters = full / TICKS_OF_COUNT;
  // Where bars are no whole quarters long, or the lesson counts eighths, an eighth is a count.
  const scale = lesson.unit === 8 || !Number.isInteger(quarters) ? 2 : 1;
  const counts = quarters * scale;
  if (!Number.isInteger(counts) || counts > 16) return undefined;
  const meter = scale === 2 && lesson.unit !== 8 ? { counts, unit: 8 } : meterOfCounts(counts, lesson);
  const pickup = (sums[0] ?? full) < full && bars.length > 1 ? full - (sums[0] ?? 0) : 0;
  const said = placed.map((word) => ({
    ...word,
    tick: (word.tick + (word.bar === 0 ? pickup : 0)) * scale,
    length: word.length * scale,
  }));
  return { count: { said, counts, bars: bars.length }, meter };
}

/** True where every note has its letter, a column to the left or right at most. */
function standOverNotes(bars: readonly TabBar[], letters: readonly RhythmLetter[]): boolean {
  const columns = new Set(letters.map(({ column }) => column));
  return bars.every((bar) =>
    bar.marks.every(({ column }) => [0, -1, 1].some((aside) => columns.has(bar.column + column + aside))),
  );
}

function cutLetters(
  placed: readonly SaidAt[],
  lesson: Meter,
): { readonly count: CountLine; readonly meter: Meter } | undefined {
  const scale = lesson.unit === 8 ? 2 : 1;
  const full = ticksOfBar(lesson);
  const said = placed.map(({ column, tick, length }) => ({
    column,
    bar: Math.floor((tick * scale) / full),
    tick: (tick * scale) % full,
    length: length * scale,
  }));
  return said.length === 0
    ? undefined
    : { count: { said, counts: lesson.counts, bars: (said.at(-1)?.bar ?? 0) + 1 }, meter: lesson };
}
