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
  const taken = new Map<Row, number>();
  const xs: number[] = [];
  let x = 0;
  let width = 0;
  for (const slot of slots) {
    x += slot.rigid + slot.spring * stretch;
    for (const piece of slot.pieces) {
      const edge = taken.get(piece.row);
      // Nothing may reach over the left edge of the line either.
      x = Math.max(x, edge === undefined ? piece.left : edge + clearanceOf(piece.row) + piece.left);
    }
    xs.push(x);
    for (const piece of slot.pieces) {
      const edge = x + piece.right;
      taken.set(piece.row, Math.max(edge, taken.get(piece.row) ?? edge));
      width = Math.max(width, edge);
    }
    width = Math.max(width, x);
  }
  return { xs, width };
}

/** The stretch at which the slots fill the width, at least 0. Width grows with stretch, so halving an interval finds it. */
export function stretchFor(slots: readonly Slot[], width: number, most: number): number {
  if (placeSlots(slots, most).width <= width) return most;
  let low = 0;
  let high = most;
  for (let step = 0; step < HALVINGS; step++) {
    const middle = (low + high) / 2;
    if (placeSlots(slots, middle).width <= width) low = middle;
    else high = middle;
  }
  return low;
}

/** Enough to place a line of 200 mm to a hundredth. */
const HALVINGS = 18;

function clearanceOf(row: Row): number {
  if (row === 'staff') return SIZES.clearance.staff;
  return row === 'name' ? SIZES.clearance.name : SIZES.clearance.text;
}
