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
 * small the stretch; things in different rows may stand over each other. The last slot ends where the line does.
 */
export function placeSlots(slots: readonly Slot[], stretch: number): Placed {
  return place(demandsOf(slots), stretch);
}

/**
 * The stretch at which the slots fill the width, at least 0 and at most `most`. Width is the greatest of many straight lines of the
 * stretch, so following the line that holds where it is too wide leads down to the answer in a few steps and never past it.
 */
export function stretchFor(slots: readonly Slot[], width: number, most: number): number {
  const demands = demandsOf(slots);
  let stretch = most;
  for (let step = 0; step < MOST_STEPS; step++) {
    const placed = place(demands, stretch);
    const excess = placed.width - width;
    if (excess <= NEAR_ENOUGH_MM || stretch <= 0) break;
    // What does not grow is too wide at any stretch.
    stretch = placed.growth <= 0 ? 0 : Math.max(0, stretch - excess / placed.growth);
  }
  return stretch;
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
  readonly numbers: Float64Array;
}

function demandsOf(slots: readonly Slot[]): Demands {
  const rows = new Map<Row, number>();
  let size = 0;
  for (const { pieces } of slots) size += 3 + 4 * pieces.length;
  const numbers = new Float64Array(size);
  let at = 0;
  for (const { rigid, spring, pieces } of slots) {
    numbers[at++] = rigid;
    numbers[at++] = spring;
    numbers[at++] = pieces.length;
    for (const { row, left, right } of pieces) {
      let number = rows.get(row);
      if (number === undefined) {
        number = rows.size;
        rows.set(row, number);
      }
      numbers[at++] = number;
      numbers[at++] = clearanceOf(row);
      numbers[at++] = left;
      numbers[at++] = right;
    }
  }
  return { rows: rows.size, numbers };
}

/** `growth` says by how much the width grows for each unit of stretch, at this stretch and a little below it. */
function place({ rows, numbers }: Demands, stretch: number): Placed & { readonly growth: number } {
  // Nothing taken yet: then only the left edge of the line must not be passed.
  const taken = new Float64Array(rows).fill(Number.NEGATIVE_INFINITY);
  const takenGrowth = new Float64Array(rows);
  const xs: number[] = [];
  let x = 0;
  let growth = 0;
  let width = 0;
  let widthGrowth = 0;
  let lastRight = 0;
  const number = (at: number): number => numbers[at] ?? 0;
  for (let at = 0; at < numbers.length; ) {
    x += number(at) + number(at + 1) * stretch;
    growth += number(at + 1);
    const first = at + 3;
    const end = first + 4 * number(at + 2);
    for (let piece = first; piece < end; piece += 4) {
      const left = number(piece + 2);
      if (left > x) {
        x = left;
        growth = 0;
      }
      const row = number(piece);
      const behind = (taken[row] ?? 0) + number(piece + 1) + left;
      if (behind > x) {
        x = behind;
        growth = takenGrowth[row] ?? 0;
      }
    }
    xs.push(x);
    lastRight = 0;
    if (x > width) {
      width = x;
      widthGrowth = growth;
    }
    for (let piece = first; piece < end; piece += 4) {
      const row = number(piece);
      const right = number(piece + 3);
      const edge = x + right;
      if (right > lastRight) lastRight = right;
      if (edge > (taken[row] ?? edge)) {
        taken[row] = edge;
        takenGrowth[row] = growth;
      }
      if (edge > width) {
        width = edge;
        widthGrowth = growth;
      }
    }
    at = end;
  }
  // Words that reach beyond the last bar line take it along: the strings end with it.
  if (xs.length > 0) xs[xs.length - 1] = Math.max(x, width - lastRight);
  return { xs, width, growth: widthGrowth };
}

/** More than lines have corners between two stretches; a line of music needs three or four. */
const MOST_STEPS = 40;

/** Far finer than what is written of a drawing. */
const NEAR_ENOUGH_MM = 1e-6;

function clearanceOf(row: Row): number {
  if (row === 'staff') return SIZES.clearance.staff;
  return row === 'name' ? SIZES.clearance.name : SIZES.clearance.text;
}
