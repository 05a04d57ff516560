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

/** What the placing needs of the slots, with rows as numbers: it is asked for many stretches. */
interface Demands {
  readonly rows: number;
  readonly slots: readonly {
    readonly rigid: number;
    readonly spring: number;
    /** For each piece: row, clearance, left, right. */
    readonly pieces: readonly (readonly [number, number, number, number])[];
  }[];
}

function demandsOf(slots: readonly Slot[]): Demands {
  const rows = new Map<Row, number>();
  const numberOf = (row: Row): number => {
    const known = rows.get(row);
    if (known !== undefined) return known;
    rows.set(row, rows.size);
    return rows.size - 1;
  };
  const demands = slots.map(({ rigid, spring, pieces }) => ({
    rigid,
    spring,
    pieces: pieces.map((piece) => [numberOf(piece.row), clearanceOf(piece.row), piece.left, piece.right] as const),
  }));
  return { rows: rows.size, slots: demands };
}

function place({ rows, slots }: Demands, stretch: number): Placed {
  // Nothing taken yet: then only the left edge of the line must not be passed.
  const taken: number[] = new Array(rows).fill(Number.NEGATIVE_INFINITY);
  const xs: number[] = [];
  let x = 0;
  let width = 0;
  for (const slot of slots) {
    x += slot.rigid + slot.spring * stretch;
    for (const [row, clearance, left] of slot.pieces) x = Math.max(x, left, (taken[row] ?? 0) + clearance + left);
    xs.push(x);
    for (const [row, , , right] of slot.pieces) {
      const edge = x + right;
      taken[row] = Math.max(edge, taken[row] ?? edge);
      width = Math.max(width, edge);
    }
    width = Math.max(width, x);
  }
  return { xs, width };
}

/** Enough to place a line of 200 mm to a hundredth. */
const HALVINGS = 18;

function clearanceOf(row: Row): number {
  if (row === 'staff') return SIZES.clearance.staff;
  return row === 'name' ? SIZES.clearance.name : SIZES.clearance.text;
}
