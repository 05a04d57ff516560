import { compare, later, minus, plus, type Rational, ZERO } from '../../theory/rational.ts';
import type { TimedGrid } from './timed-grid.ts';

/** How far into a bar patterns begin that begin together. */
export function lateOf(grids: readonly TimedGrid[]): Rational {
  const lead = longestLead(grids);
  return grids.find((grid) => compare(grid.lead, lead) === 0)?.startsAt ?? ZERO;
}

/** From the beginning of patterns that begin together to their first full bar. */
export function longestLead(grids: readonly TimedGrid[]): Rational {
  return grids.reduce<Rational>((most, { lead }) => later(most, lead), ZERO);
}

/** A pattern among those that begin together, and when it does. */
export interface Part {
  readonly grid: TimedGrid;
  readonly start: Rational;
}

/** Patterns that begin together have their first full bars together: what has no pickup waits for it. */
export function partsOf(grids: readonly TimedGrid[], start: Rational): readonly Part[] {
  const most = longestLead(grids);
  return grids.map((grid) => ({ grid, start: plus(start, minus(most, grid.lead)) }));
}

/** Where the last of them ends. */
export function endOf(parts: readonly Part[]): Rational {
  return parts.reduce<Rational>(
    (end, { grid, start }) => later(end, plus(start, grid.length)),
    parts[0]?.start ?? ZERO,
  );
}

/** How long patterns last that begin together, each from the beginning of the first of them to its own end. */
export function lengthsTogether(grids: readonly TimedGrid[]): readonly Rational[] {
  return partsOf(grids, ZERO).map(({ grid, start }) => plus(start, grid.length));
}

/** Patterns that begin together, and when they do. */
export interface Turn {
  /** Its place among the turns. */
  readonly index: number;
  readonly parts: readonly Part[];
  readonly start: Rational;
  readonly end: Rational;
}

/** The turns one after another, from the first again at their end. Each of them must last. */
export function inTurn(turns: readonly (readonly TimedGrid[])[], from: Rational, to: Rational): readonly Turn[] {
  const placed: Turn[] = [];
  let start = from;
  while (turns.length > 0 && compare(start, to) < 0) {
    const index = placed.length % turns.length;
    const parts = partsOf(turns[index] ?? [], start);
    const end = endOf(parts);
    const last = compare(end, to) > 0 ? to : end;
    placed.push({ index, parts: parts.filter((part) => compare(part.start, last) < 0), start, end: last });
    start = end;
  }
  return placed;
}

/** Turns that take time: only those can follow one another. */
export function lasting(turns: readonly (readonly TimedGrid[])[]): readonly (readonly TimedGrid[])[] {
  return turns.filter((grids) => grids.some((grid) => grid.length.numerator > 0));
}
