import type { CountLine } from './count-line.ts';
import type { RhythmLetter } from './rhythm-letters.ts';
import type { TabBar } from './tab-bars.ts';
import type { TabMark } from './tab-marks.ts';

/** A system of tab with all that stands around it. */
export interface Passage {
  readonly bars: readonly TabBar[];
  readonly count?: CountLine;
  readonly letters?: readonly RhythmLetter[];
}

/** What sounds at one moment of a bar. */
export interface Moment {
  /** From the start of the bar. */
  readonly tick: number;
  /** Where it stands in the lines of the text. */
  readonly column: number;
  readonly marks: readonly TabMark[];
}

export interface TimedBar {
  readonly moments: readonly Moment[];
  /** Where the bar begins in the lines of the text. */
  readonly column: number;
  /** More than 0 for a pickup. */
  readonly startTick: number;
  readonly opens: boolean;
  readonly closes: boolean;
  readonly times?: number;
}

/** How the rhythm of a tab is to be read where its text does not say it. */
export type RhythmWish =
  /** All notes are equally long. */
  | { readonly kind: 'equal' }
  /** The distance of two notes on the line is their distance in time. */
  | { readonly kind: 'columns' }
  /** Notes fall on these counts of every bar. */
  | { readonly kind: 'count'; readonly ticks: readonly number[]; readonly counts: number };

/** The marks of a bar by their columns, in order. */
export function columnsOf(bar: TabBar): readonly { readonly column: number; readonly marks: readonly TabMark[] }[] {
  const columns: { column: number; marks: TabMark[] }[] = [];
  for (const mark of bar.marks) {
    const open = columns.at(-1);
    if (open?.column === mark.column) open.marks.push(mark);
    else columns.push({ column: mark.column, marks: [mark] });
  }
  return columns;
}

/** The bar of a tab with its moments at the given ticks, one for each of its columns. */
export function timedBar(bar: TabBar, ticks: readonly number[]): TimedBar {
  const moments = columnsOf(bar).map(({ column, marks }, index) => ({
    tick: ticks[index] ?? 0,
    column: bar.column + column,
    marks,
  }));
  const { column, opens, closes, times } = bar;
  return { moments, column, startTick: 0, opens, closes, ...(times === undefined ? {} : { times }) };
}
