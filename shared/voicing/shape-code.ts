import type { Fret, Shape } from '../neck/shape.ts';

/**
 * A shape and its cost as one number, so that thousands are compared without a record for each: the cost, then a digit of base 32
 * for every string in chart order. Eight strings take 40 bits, which leaves 13 of a number's 53 for the cost.
 */
export type RankedCode = number;

const DIGIT = 32;
const MUTED_DIGIT = DIGIT - 1;
const MOST_DIGITS = 8;
const COST_UNIT = DIGIT ** MOST_DIGITS;

/** Greatest cost that fits; what costs more is as bad. */
const MOST_COST = 2 ** 13 - 1;

/** `cost` is a whole number. Of two shapes that cost the same, the one with lower frets on the highest-numbered strings comes first. */
export function encodeShape(shape: Shape, cost: number): RankedCode {
  let code = Math.min(cost, MOST_COST);
  for (const fret of shape) code = code * DIGIT + (fret === 'muted' ? MUTED_DIGIT : fret);
  // Fewer strings leave their digits unused at the end.
  return code * DIGIT ** (MOST_DIGITS - shape.length);
}

/** The cost in it, `MOST_COST` where it was that or more. */
export function costOfCode(code: RankedCode): number {
  return Math.floor(code / COST_UNIT);
}

/** What is left of it without the cost: the same number for the same shape. */
export function shapeOfCode(code: RankedCode): number {
  return code % COST_UNIT;
}

export function decodeShape(code: RankedCode, stringCount: number): Shape {
  const shape: Fret[] = [];
  let rest = code % COST_UNIT;
  for (let unit = COST_UNIT / DIGIT; shape.length < stringCount; unit /= DIGIT) {
    const digit = Math.floor(rest / unit);
    rest -= digit * unit;
    shape.push(digit === MUTED_DIGIT ? 'muted' : digit);
  }
  return shape;
}

/** The best of what has been offered so far: at most `most`, which may be infinite. */
export interface BestShapes {
  readonly most: number;
  /** While fewer than `most`, in no order; then a heap, the worst first, each not worse than the one at half its place. */
  readonly codes: RankedCode[];
  /** What costs more than this is not among the best. */
  limit: number;
}

export function bestShapes(most: number): BestShapes {
  return { most, codes: [], limit: most > 0 ? Number.POSITIVE_INFINITY : -1 };
}

export function offer(best: BestShapes, code: RankedCode): void {
  const { codes, most } = best;
  if (codes.length < most) {
    codes.push(code);
    if (codes.length < most) return;
    codes.sort((a, b) => b - a);
  } else if (code < (codes[0] ?? 0)) sink(codes, code);
  best.limit = Math.floor((codes[0] ?? 0) / COST_UNIT);
}

/** The best ones, best first. */
export function bestOf({ codes }: BestShapes): Float64Array {
  return Float64Array.from(codes).sort();
}

/** Puts a better one in the place of the worst and mends the heap. */
function sink(codes: RankedCode[], code: RankedCode): void {
  let at = 0;
  for (;;) {
    let worse = 2 * at + 1;
    if (worse + 1 < codes.length && (codes[worse + 1] ?? 0) > (codes[worse] ?? 0)) worse += 1;
    const other = codes[worse];
    if (other === undefined || other <= code) break;
    codes[at] = other;
    at = worse;
  }
  codes[at] = code;
}
