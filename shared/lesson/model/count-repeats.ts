import { minus, plus, type Rational, ZERO } from '../../theory/rational.ts';
import type { CountRow, CountSign } from '../syntax/statement.ts';
import { endingsOf } from './bar-endings.ts';
import type { ColumnTime, CountTimes } from './count-times.ts';
import { type OrderedBar, unfoldedOrder } from './played-order.ts';

/** A line of music: its count as it is written, and its times. */
export interface CountLine {
  readonly row: CountRow | undefined;
  readonly timed: CountTimes;
}

/** A column in its turn; its time counts from the first column of the first line. */
export interface PlayedColumn extends ColumnTime {
  /** Its line of music, and its place among the written columns of the line. */
  readonly line: number;
  readonly column: number;
  /** It was played before: the repeat comes round. */
  readonly again: boolean;
}

export interface PlayedColumns {
  readonly columns: readonly PlayedColumn[];
  readonly length: Rational;
}

/**
 * The columns of a count as they are played: repeats and endings are played out, also from line to line, so that a pattern is as long
 * as it sounds.
 */
export function playedColumns(lines: readonly CountLine[]): PlayedColumns {
  const written = writtenColumns(lines);
  if (!hasRepeats(lines)) return written;
  const bars = countedBars(lines);
  const columns: PlayedColumn[] = [];
  const met = new Set<number>();
  let start: Rational = ZERO;
  for (const { index } of unfoldedOrder(bars)) {
    const bar = bars[index];
    if (bar === undefined) continue;
    for (let at = bar.first; at <= bar.last; at += 1) {
      const column = written.columns[at];
      if (column === undefined) continue;
      columns.push({ ...column, at: plus(start, minus(column.at, bar.at)), again: met.has(index) });
    }
    met.add(index);
    start = plus(start, bar.length);
  }
  return { columns, length: start };
}

/** The columns in the order of the text, each once. */
export function writtenColumns(lines: readonly CountLine[]): PlayedColumns {
  const columns: PlayedColumn[] = [];
  let start: Rational = ZERO;
  lines.forEach(({ timed }, line) => {
    timed.columns.forEach(({ at, length, said }, column) => {
      columns.push({ at: plus(start, at), length, said, line, column, again: false });
    });
    start = plus(start, timed.length);
  });
  return { columns, length: start };
}

/** True for a count of which a part comes round. */
export function hasRepeats(lines: readonly Pick<CountLine, 'row'>[]): boolean {
  return lines.some(({ row }) => row?.signs.some(({ sign }) => sign.text.startsWith(':')) === true);
}

/** The bars of all lines with the signs of their order. */
export function countedBars(lines: readonly CountLine[]): readonly (CountedBar & OrderedBar)[] {
  let start: Rational = ZERO;
  let first = 0;
  const withSigns = lines.flatMap(({ row, timed }) => {
    const bars = barsOf(timed).map((bar) => {
      const opening = signsAt(row, bar.first);
      const closing = signsAt(row, bar.last + 1);
      const ending = opening.find((one) => one.ending !== undefined)?.ending;
      const times = closing.find((one) => one.times !== undefined)?.times;
      const closes = closing.find(({ sign }) => sign.text.startsWith(':')) ?? closing[0];
      return {
        first: first + bar.first,
        last: first + bar.last,
        at: plus(start, bar.at),
        length: bar.length,
        opens: opening.some(({ sign }) => sign.text.endsWith(':')),
        closes: closes?.sign.text.startsWith(':') === true,
        ...(times === undefined ? {} : { times }),
        bar: {
          ...(ending === undefined ? {} : { ending }),
          ...(closes === undefined ? {} : { closes: closes.sign }),
        },
      };
    });
    start = plus(start, timed.length);
    first += timed.columns.length;
    return bars;
  });
  const endings = endingsOf(withSigns);
  return withSigns.map((bar, index) => {
    const ending = endings[index];
    return { ...bar, ...(ending === undefined ? {} : { ending }) };
  });
}

/** What stands in front of a column; a bar may be closed and the next one opened by signs of their own, as in `:| |:`. */
function signsAt(row: CountRow | undefined, at: number): readonly CountSign[] {
  return row?.signs.filter(({ column }) => column === at) ?? [];
}

/** A bar of the count: its first and last column among those of all lines, when it begins, and how long it lasts. */
export interface CountedBar {
  readonly first: number;
  readonly last: number;
  readonly at: Rational;
  readonly length: Rational;
}

function barsOf({ columns, firsts, length }: CountTimes): readonly CountedBar[] {
  return firsts.map((first, place) => {
    const next = firsts[place + 1];
    const at = columns[first]?.at ?? ZERO;
    const end = next === undefined ? length : (columns[next]?.at ?? length);
    return { first, last: (next ?? columns.length) - 1, at, length: minus(end, at) };
  });
}
