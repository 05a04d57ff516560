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
  const xs: number[] = [];
  const { width } = advance(LINE_START, demandsOf(slots, new Map()), stretch, xs);
  return { xs, width };
}

/** The stretch at which the slots fill the width, at least 0. Width grows with stretch, so halving an interval finds it. */
export function stretchFor(slots: readonly Slot[], width: number, most: number): number {
  const demands = demandsOf(slots, new Map());
  if (advance(LINE_START, demands, most).width <= width) return most;
  let low = 0;
  let high = most;
  for (let step = 0; step < HALVINGS; step++) {
    const middle = (low + high) / 2;
    if (advance(LINE_START, demands, middle).width <= width) low = middle;
    else high = middle;
  }
  return low;
}

/** Rows as numbers, in the order they are met. One list serves all slots that are placed together. */
export type RowNumbers = Map<Row, number>;

/** What the placing needs of a slot: it is asked for many stretches. */
export interface Demand {
  readonly rigid: number;
  readonly spring: number;
  /** For each piece: row, clearance, left, right. */
  readonly pieces: readonly (readonly [number, number, number, number])[];
}

export function demandsOf(slots: readonly Slot[], rows: RowNumbers): readonly Demand[] {
  const numberOf = (row: Row): number => {
    const known = rows.get(row);
    if (known !== undefined) return known;
    rows.set(row, rows.size);
    return rows.size - 1;
  };
  return slots.map(({ rigid, spring, pieces }) => ({
    rigid,
    spring,
    pieces: pieces.map((piece) => [numberOf(piece.row), clearanceOf(piece.row), piece.left, piece.right] as const),
  }));
}

/** How far a line is filled: the place of its last slot, its width so far, and for each row where something ends in it. */
export interface Front {
  readonly x: number;
  readonly width: number;
  readonly taken: readonly number[];
}

/** Nothing is taken yet: then only the left edge of the line must not be passed. */
export const LINE_START: Front = { x: 0, width: 0, taken: [] };

/** The front behind further slots at the given stretch. Their places are added to `xs` where it is given. */
export function advance(front: Front, demands: readonly Demand[], stretch: number, xs?: number[]): Front {
  const taken = front.taken.slice();
  let { x, width } = front;
  for (const { rigid, spring, pieces } of demands) {
    x += rigid + spring * stretch;
    for (const [row, clearance, left] of pieces) {
      const before = taken[row];
      x = Math.max(x, left, before === undefined ? left : before + clearance + left);
    }
    xs?.push(x);
    for (const [row, , , right] of pieces) {
      const edge = x + right;
      while (taken.length <= row) taken.push(Number.NEGATIVE_INFINITY);
      taken[row] = Math.max(edge, taken[row] ?? edge);
      width = Math.max(width, edge);
    }
    width = Math.max(width, x);
  }
  return { x, width, taken };
}

/** Enough to place a line of 200 mm to a hundredth. */
const HALVINGS = 18;

function clearanceOf(row: Row): number {
  if (row === 'staff') return SIZES.clearance.staff;
  return row === 'name' ? SIZES.clearance.name : SIZES.clearance.text;
}
