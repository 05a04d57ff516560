import type { Shape } from '../../neck/shape.ts';
import { FAMILY_POINTS, NEARBY_FRETS } from './family-table.ts';

/** The lowest fret that is stopped, which tells where on the neck a shape lies; nothing where no string is. */
export function placeOf(shape: Shape): number | undefined {
  let lowest: number | undefined;
  for (const fret of shape) {
    if (fret !== 'muted' && fret > 0 && (lowest === undefined || fret < lowest)) lowest = fret;
  }
  return lowest;
}

/**
 * The stopped strings moved along the neck until the lowest of them is at the first fret, all others 0: the same for shapes that look
 * alike to the hand. Whether a string that is not stopped rings or is silent does not matter here.
 */
export function outlineOf(shape: Shape): Shape {
  const place = placeOf(shape) ?? 0;
  return shape.map((fret) => (isStopped(fret) ? fret - place + 1 : 0));
}

/**
 * How much the outlines of two shapes of as many strings differ, once one is moved along the neck to where it lies most like the
 * other: nothing for the same outline, whatever the frets. Unit: points.
 */
export function outlineDifference(one: Shape, other: Shape): number {
  return differenceAt(stoppedFrets([one]), 0, stoppedFrets([other]), 0, one.length);
}

/** By shape and string the fret where it is stopped, else 0: of many shapes, so that thousands of pairs are compared without looking twice. */
export function stoppedFrets(shapes: readonly Shape[]): Int8Array {
  return Int8Array.from(shapes.flatMap((shape) => shape.map((fret) => (isStopped(fret) ? fret : 0))));
}

/** The same as `outlineDifference`, of two shapes by where they begin among stopped frets. */
export function differenceAt(ones: Int8Array, one: number, others: Int8Array, other: number, strings: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let at = 0; at < strings; at += 1) {
    const fret = ones[one + at] ?? 0;
    const beside = others[other + at] ?? 0;
    // Only ways that bring one string at least to where the other shape has it: a hand that moves takes a finger along.
    if (fret === 0 || beside === 0) continue;
    const points = differenceWhenMoved(ones, one, others, other, strings, beside - fret);
    if (points === 0) return 0;
    if (points < least) least = points;
  }
  const points = least === Number.POSITIVE_INFINITY ? differenceWhenMoved(ones, one, others, other, strings, 0) : least;
  return Math.min(FAMILY_POINTS.mostOutline, points);
}

function differenceWhenMoved(
  ones: Int8Array,
  one: number,
  others: Int8Array,
  other: number,
  strings: number,
  byFrets: number,
): number {
  const { stringDiffers, stringNearby } = FAMILY_POINTS;
  let points = 0;
  for (let at = 0; at < strings; at += 1) {
    const fret = ones[one + at] ?? 0;
    const beside = others[other + at] ?? 0;
    if (fret === 0 || beside === 0) {
      if (fret !== beside) points += stringDiffers;
      continue;
    }
    const off = beside - fret - byFrets;
    if (off !== 0) points += off <= NEARBY_FRETS && off >= -NEARBY_FRETS ? stringNearby : stringDiffers;
  }
  return points;
}

function isStopped(fret: Shape[number] | undefined): fret is number {
  return typeof fret === 'number' && fret > 0;
}
