import { SIZES } from './sizes.ts';
import type { Piece, Row } from './tab-piece.ts';

/** One place along a line of music: a bar line, a meter, a moment of a bar. */
export interface Slot {
  /** Room behind the slot before that neither stretches nor shrinks. Unit: mm. */
  readonly rigid: number;
  /** Room behind the slot before that stretches with the line. Unit: mm at natural width. */
  readonly spring: number;
  readonly pieces: readonly Piece[];
}

/** Where the slots lie and where the last one ends. Unit: mm. */
export interface Placed {
  readonly xs: readonly number[];
  readonly width: number;
}

/**
 * Places slots from left to right at the given stretch. Things in one row never come nearer than the row's clearance, however
 * small the stretch; things in different rows may stand over each other.
 */
export function placeSlots(slots: readonly Slot[], stretch: number): Placed {
  return place(demandsOf(slots), stretch);
}

/** The stretch at which the slots fill the width, at least 0. Width grows with stretch, so halving an interval finds it. */
export function stretchFor(slots: readonly Slot[], width: number, most: number): number {
  const demands = demandsOf(slots);
  if (place(demands, most).width <= width) return most;
  let low = 0;
  let high = most;
  for (let step = 0; step < HALVINGS; step++) {
    const middle = (low + high) / 2;
    if (place(demands, middle).width <= width) low = middle;
    else high = middle;
  }
  return low;
}

/** Where the slots lie at each of several stretches. */
export function placesAt(slots: readonly Slot[], stretches: readonly number[]): readonly (readonly number[])[] {
  const demands = demandsOf(slots);
  return stretches.map((stretch) => place(demands, stretch).xs);
}

/**
 * What the placing needs of the slots, as one list of numbers, because it is asked for many stretches and on every key typed: for
 * each slot its rigid room, its spring and how many pieces it has, then for each piece row, clearance, left and right.
 */
interface Demands {
  readonly rows: number;
  readonly numbers: readonly number[];
}

function demandsOf(slots: readonly Slot[]): Demands {
  const rows = new Map<Row, number>();
  const numbers: number[] = [];
  for (const { rigid, spring, pieces } of slots) {
    numbers.push(rigid, spring, pieces.length);
    for (const { row, left, right } of pieces) {
      let number = rows.get(row);
      if (number === undefined) {
        number = rows.size;
        rows.set(row, number);
      }
      numbers.push(number, clearanceOf(row), left, right);
    }
  }
  return { rows: rows.size, numbers };
}

function place({ rows, numbers }: Demands, stretch: number): Placed {
  // Nothing taken yet: then only the left edge of the line must not be passed.
  const taken: number[] = new Array(rows).fill(Number.NEGATIVE_INFINITY);
  const xs: number[] = [];
  let x = 0;
  let width = 0;
  const number = (at: number): number => numbers[at] ?? 0;
  for (let at = 0; at < numbers.length; ) {
    x += number(at) + number(at + 1) * stretch;
    const first = at + 3;
    const end = first + 4 * number(at + 2);
    for (let piece = first; piece < end; piece += 4) {
      const left = number(piece + 2);
      x = Math.max(x, left, (taken[number(piece)] ?? 0) + number(piece + 1) + left);
    }
    xs.push(x);
    for (let piece = first; piece < end; piece += 4) {
      const row = number(piece);
      const edge = x + number(piece + 3);
      taken[row] = Math.max(edge, taken[row] ?? edge);
      width = Math.max(width, edge);
    }
    width = Math.max(width, x);
    at = end;
  }
  return { xs, width };
}

/** Enough to place a line of 200 mm to a hundredth. */
const HALVINGS = 18;

function clearanceOf(row: Row): number {
  if (row === 'staff') return SIZES.clearance.staff;
  return row === 'name' ? SIZES.clearance.name : SIZES.clearance.text;
}
