import { compare, plus, type Rational } from '../../theory/rational.ts';
import { type OrderedBar, unfoldedOrder } from './played-order.ts';
import type { TimedGrid } from './timed-grid.ts';

/** A bar that patterns are placed over. */
interface MetBar extends OrderedBar {
  readonly length: Rational;
}

/**
 * The grid in the order of its text, where its count repeats as the bars do that it meets from a time on: then both come round
 * together, and each ending has its own part of the tune. Undefined where they differ: then its repeats are played out.
 */
export function alongRepeats(
  grid: TimedGrid,
  start: Rational,
  bars: readonly MetBar[],
  starts: readonly Rational[],
): TimedGrid | undefined {
  const { asWritten } = grid;
  if (asWritten === undefined) return undefined;
  const counted = asWritten.bars;
  // A pickup has a bar of its own, or is the end of one; the bar before it may be the rest of it.
  const exact = starts.findIndex((at) => compare(at, start) === 0);
  const first = exact >= 0 ? exact : starts.findIndex((at) => compare(plus(at, grid.startsAt), start) === 0);
  const met = first < 0 ? [] : bars.slice(first, first + counted.length);
  if (met.length < counted.length || !counted.every((bar, at) => isAsLong(grid, bar, met[at], at))) return undefined;
  const order = unfoldedOrder(counted);
  const theirs = unfoldedOrder(met);
  const isSame = ({ index, round }: (typeof order)[number], at: number) =>
    theirs[at]?.index === index && theirs[at]?.round === round;
  return order.length === theirs.length && order.every(isSame) ? asWritten.grid : undefined;
}

/** A tune that is counted from inside a bar has only the rest of its first one. */
function isAsLong(grid: TimedGrid, { length }: MetBar, met: MetBar | undefined, at: number): boolean {
  if (met === undefined) return false;
  return compare(length, met.length) === 0 || (at === 0 && compare(plus(length, grid.startsAt), met.length) === 0);
}
