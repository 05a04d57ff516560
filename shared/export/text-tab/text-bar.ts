import type { ScoreBar } from '../../score/timeline.ts';
import { compare, greatestCommonDivisor, leastCommonMultiple, type Rational } from '../../theory/rational.ts';
import { countedWords } from './count-words.ts';
import type { Figure, TabCell } from './tab-cells.ts';

/** A line of text under construction, by columns. */
export interface PlacedText {
  readonly column: number;
  readonly text: string;
}

/** A bar as text, from behind its left bar line to its right one. */
export interface TextBar {
  /** Unit: columns. */
  readonly width: number;
  /** Figures by number of the string. */
  readonly strings: ReadonlyMap<number, readonly PlacedText[]>;
  readonly chords: readonly PlacedText[];
  readonly count: readonly PlacedText[];
  readonly hand: readonly PlacedText[];
  readonly knocks: readonly PlacedText[];
  /** By verse. */
  readonly words: ReadonlyMap<number, readonly PlacedText[]>;
  readonly calls: readonly PlacedText[];
  readonly opens: boolean;
  readonly closes: boolean;
  readonly double: boolean;
  /** `Ending 1`, `Ending 2, 3` where one begins. Figures without the word would be read as a count. */
  readonly ending?: string;
  /** `x3` */
  readonly times?: number;
  /** False where the bar goes on in the next line. */
  readonly isEnd: boolean;
}

/** All that stands at one place. */
interface Slot {
  readonly at: Rational;
  readonly cell: TabCell | undefined;
  readonly word: string;
}

/** A bar is spaced as time goes unless that makes it wider than this; then it is as narrow as it can be. Unit: columns. */
const WIDEST_EVEN = 40;

/** The bar as text. One that is wider than `most` is cut into several, at its counts. */
export function textBars(bar: ScoreBar, cells: readonly TabCell[], most: number): readonly TextBar[] {
  const moments = [...cells.map(({ at }) => at), ...bar.chords.map(({ at }) => at)];
  const slots = slotsOf(bar, cells, moments);
  const pieces = cut(slots, bar, most);
  return pieces.map((piece, index) => {
    const isFirst = index === 0;
    const isEnd = index === pieces.length - 1;
    const until = pieces[index + 1]?.[0]?.at;
    return layOut(bar, piece, until, isFirst, isEnd);
  });
}

function slotsOf(bar: ScoreBar, cells: readonly TabCell[], moments: readonly Rational[]): readonly Slot[] {
  const words = countedWords(bar, moments);
  const found = new Map<string, { at: Rational; cell: TabCell | undefined; word: string }>();
  const slotAt = (at: Rational): { at: Rational; cell: TabCell | undefined; word: string } => {
    const key = `${at.numerator}/${at.denominator}`;
    const known = found.get(key) ?? { at, cell: undefined, word: '' };
    found.set(key, known);
    return known;
  };
  for (const { at, word } of words) slotAt(at).word = word;
  for (const cell of cells) slotAt(cell.at).cell = cell;
  return [...found.values()].sort((a, b) => compare(a.at, b.at));
}

/** Columns for ` x3` behind a repeat. */
const TIMES_WIDTH = 4;

/** Pieces of a bar that fit, each beginning on a number. */
function cut(slots: readonly Slot[], bar: ScoreBar, most: number): readonly (readonly Slot[])[] {
  const room = bar.times === undefined ? most : most - TIMES_WIDTH;
  const fits = (piece: readonly Slot[], until: Rational | undefined): boolean =>
    layOut(bar, piece, until, piece[0] === slots[0], until === undefined).width <= room;
  if (fits(slots, undefined)) return [slots];
  const pieces: Slot[][] = [];
  let open: Slot[] = [];
  let taken = 0;
  for (const count of countsOf(slots)) {
    taken += count.length;
    const next = slots[taken]?.at;
    if (open.length > 0 && !fits([...open, ...count], next)) {
      pieces.push(open);
      open = [];
    }
    open.push(...count);
  }
  return [...pieces, open];
}

/** Slots count by count: each begins with a number. */
function countsOf(slots: readonly Slot[]): readonly (readonly Slot[])[] {
  const counts: Slot[][] = [];
  for (const slot of slots) {
    const open = counts.at(-1);
    if (open === undefined || /^\d/.test(slot.word)) counts.push([slot]);
    else open.push(slot);
  }
  return counts;
}

interface Columns {
  readonly starts: readonly number[];
  readonly end: number;
}

/** Where each slot stands, and the column of the bar line. */
function columnsOf(slots: readonly Slot[], bar: ScoreBar, until: Rational | undefined, opens: boolean): Columns {
  const first = opens ? 2 : 1;
  const closing = bar.closes.startsWith(':') ? 1 : 0;
  const end = until ?? bar.length;
  const needs = slots.map((slot, index) => needOf(slot) + 1 + leadOf(slots[index + 1]));
  const besides = slots.map(({ at }, index) => Math.max(needs[index] ?? 1, besideAt(bar, at) + 1));
  const lengths = ticksBetween([...slots.map(({ at }) => at), end]);
  // Room for words and chords is taken evenly, too, where there is enough.
  const widths = evenWidths(besides, lengths) ?? evenWidths(needs, lengths) ?? needs;
  const starts: number[] = [];
  let at = first + Math.max(0, leadOf(slots[0]) - 1);
  for (const width of widths) {
    starts.push(at);
    at += width;
  }
  return { starts, end: at + closing };
}

/** Lengths between moments, in whole ticks. */
function ticksBetween(moments: readonly Rational[]): readonly number[] {
  const whole = moments.reduce((ticks, { denominator }) => leastCommonMultiple(ticks, denominator), 1);
  const ticks = moments.map((at) => (at.numerator * whole) / at.denominator);
  return ticks.slice(1).map((tick, index) => tick - (ticks[index] ?? 0));
}

/** Widths in proportion to time, wide enough for everything; nothing where that makes the bar too wide. */
function evenWidths(needs: readonly number[], lengths: readonly number[]): readonly number[] | undefined {
  const unit = lengths.reduce((divisor, length) => greatestCommonDivisor(divisor, length), 0);
  const perUnit = Math.max(1, ...needs.map((need, index) => Math.ceil((need * unit) / (lengths[index] ?? 1))));
  const widths = lengths.map((length) => (length / unit) * perUnit);
  return widths.reduce((sum, width) => sum + width, 0) <= WIDEST_EVEN ? widths : undefined;
}

/** Columns of the widest word or chord that begins at a moment. */
function besideAt(bar: ScoreBar, at: Rational): number {
  const words = [...bar.syllables, ...bar.calls].filter((one) => compare(one.at, at) === 0).map(({ text }) => text);
  const chords = bar.chords.filter((one) => compare(one.at, at) === 0).map(({ chord }) => chord?.name ?? 'NC');
  return Math.max(0, ...[...words, ...chords].map(({ length }) => length));
}

/** Columns that a slot takes without the gap behind it. */
function needOf({ cell, word }: Slot): number {
  const figures = [...(cell?.strings.values() ?? [])].map(({ text }) => text.length);
  return Math.max(1, word.length, cell?.hand.length ?? 0, cell?.knocks.length ?? 0, ...figures);
}

function leadOf(slot: Slot | undefined): number {
  return Math.max(0, ...[...(slot?.cell?.strings.values() ?? [])].map(({ lead }) => lead.length));
}

function layOut(
  bar: ScoreBar,
  slots: readonly Slot[],
  until: Rational | undefined,
  isFirst: boolean,
  isEnd: boolean,
): TextBar {
  const opens = isFirst && bar.opens !== undefined;
  const { starts, end } = columnsOf(slots, bar, until, opens);
  const placed = (textOf: (slot: Slot) => string): readonly PlacedText[] =>
    slots.flatMap((slot, index) => {
      const text = textOf(slot);
      return text === '' ? [] : [{ column: starts[index] ?? 0, text }];
    });
  const strings = new Map<number, PlacedText[]>();
  slots.forEach(({ cell }, index) => {
    for (const [string, { lead, text }] of cell?.strings ?? new Map<number, Figure>()) {
      const line = strings.get(string) ?? [];
      line.push({ column: (starts[index] ?? 0) - lead.length, text: lead + text });
      strings.set(string, line);
    }
  });
  const [from] = slots;
  const isHere = ({ at }: { readonly at: Rational }): boolean =>
    (isFirst || from === undefined || compare(at, from.at) >= 0) && (until === undefined || compare(at, until) < 0);
  /** Words find room to the right, for they need not stand exactly. */
  const beside = (items: readonly { readonly at: Rational; readonly text: string }[]): readonly PlacedText[] => {
    let free = 0;
    return items.filter(isHere).map(({ at, text }) => {
      const index = slots.findLastIndex((slot) => compare(slot.at, at) <= 0);
      const column = Math.max(free, starts[Math.max(0, index)] ?? 0);
      free = column + text.length + 1;
      return { column, text };
    });
  };
  const chords = beside(bar.chords.map(({ at, chord }) => ({ at, text: chord?.name ?? 'NC' })));
  const verses = [...new Set(bar.syllables.map(({ verse }) => verse))].sort((a, b) => a - b);
  const words = new Map(verses.map((verse) => [verse, beside(bar.syllables.filter((one) => one.verse === verse))]));
  const calls = beside(bar.calls);
  const rightmost = [chords, calls, ...words.values()].flat().map(({ column, text }) => column + text.length + 1);
  const ending = isFirst && bar.ending?.begins === true ? `Ending ${bar.ending.numbers.join(', ')}` : undefined;
  const closes = isEnd && bar.closes.startsWith(':');
  return {
    width: Math.max(end, ...rightmost),
    strings,
    chords,
    count: placed(({ word }) => word),
    hand: placed(({ cell }) => cell?.hand ?? ''),
    knocks: placed(({ cell }) => cell?.knocks ?? ''),
    words,
    calls,
    opens,
    closes,
    double: isEnd && bar.closes === '||',
    isEnd,
    ...(ending === undefined ? {} : { ending }),
    ...(closes && bar.times !== undefined ? { times: bar.times } : {}),
  };
}
