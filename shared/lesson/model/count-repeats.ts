import { barLength, type Meter } from '../../theory/meter.ts';
import { minus, over, plus, type Rational, ZERO } from '../../theory/rational.ts';
import type { CountRow } from '../syntax/statement.ts';
import { endingsOf } from './bar-endings.ts';
import type { ColumnTime, CountTimes } from './count-times.ts';
import { type OrderedBar, unfoldedOrder } from './played-order.ts';

/** A column in its turn. */
export interface PlayedColumn extends ColumnTime {
  /** Its place among the written columns. */
  readonly column: number;
  /** It was played before: the repeat comes round. */
  readonly again: boolean;
}

export interface PlayedColumns {
  readonly columns: readonly PlayedColumn[];
  readonly length: Rational;
}

/** The columns of a count as they are played: repeats and endings are played out, so that a pattern is as long as it sounds. */
export function playedColumns(row: CountRow | undefined, timed: CountTimes, meter: Meter): PlayedColumns {
  if (!hasRepeats(row)) return writtenColumns(timed);
  const written = writtenColumns(timed).columns;
  const bars = countedBars(row, timed, meter);
  const columns: PlayedColumn[] = [];
  const met = new Set<number>();
  let start: Rational = ZERO;
  for (const { index } of unfoldedOrder(bars)) {
    const bar = bars[index];
    if (bar === undefined) continue;
    for (let at = bar.first; at <= bar.last; at += 1) {
      const column = written[at];
      if (column === undefined) continue;
      columns.push({ ...column, at: plus(start, minus(column.at, bar.at)), again: met.has(index) });
    }
    met.add(index);
    start = plus(start, bar.length);
  }
  return { columns, length: start };
}

/** The columns in the order of the text, each once. */
export function writtenColumns(timed: CountTimes): PlayedColumns {
  return {
    columns: timed.columns.map((column, index) => ({ ...column, column: index, again: false })),
    length: timed.length,
  };
}

/** True for a count of which a part comes round. */
export function hasRepeats(row: CountRow | undefined): boolean {
  return row?.signs.some(({ sign }) => sign.text.startsWith(':')) === true;
}

/** The bars of a count with the signs of their order. */
export function countedBars(
  row: CountRow | undefined,
  timed: CountTimes,
  meter: Meter,
): readonly (CountedBar & OrderedBar)[] {
  const withSigns = barsOf(timed, meter).map((bar) => {
    const opening = row?.signs.find(({ column }) => column === bar.first);
    const closing = row?.signs.find(({ column }) => column === bar.last + 1);
    return {
      ...bar,
      opens: opening?.sign.text.endsWith(':') === true,
      closes: closing?.sign.text.startsWith(':') === true,
      ...(closing?.times === undefined ? {} : { times: closing.times }),
      bar: {
        ...(opening?.ending === undefined ? {} : { ending: opening.ending }),
        ...(closing === undefined ? {} : { closes: closing.sign }),
      },
    };
  });
  const endings = endingsOf(withSigns);
  return withSigns.map((bar, index) => {
    const ending = endings[index];
    return { ...bar, ...(ending === undefined ? {} : { ending }) };
  });
}

/** A bar of the count: its first and last column, when it begins, and how long it lasts. */
export interface CountedBar {
  readonly first: number;
  readonly last: number;
  readonly at: Rational;
  readonly length: Rational;
}

function barsOf({ columns, startsAt, length }: CountTimes, meter: Meter): readonly CountedBar[] {
  const full = barLength(meter);
  const firsts: number[] = [];
  let before = -1;
  columns.forEach(({ at }, index) => {
    const bars = over(plus(startsAt, at), full);
    const bar = Math.floor(bars.numerator / bars.denominator);
    if (bar > before) firsts.push(index);
    before = Math.max(before, bar);
  });
  return firsts.map((first, place) => {
    const next = firsts[place + 1];
    const at = columns[first]?.at ?? ZERO;
    const end = next === undefined ? length : (columns[next]?.at ?? length);
    return { first, last: (next ?? columns.length) - 1, at, length: minus(end, at) };
  });
}
