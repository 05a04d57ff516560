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
  let least = Number.POSITIVE_INFINITY;
  for (let at = 0; at < one.length; at += 1) {
    const fret = one[at];
    const beside = other[at];
    // Only ways that bring one string at least to where the other shape has it: a hand that moves takes a finger along.
    if (isStopped(fret) && isStopped(beside)) least = Math.min(least, differenceWhenMoved(one, other, beside - fret));
    if (least === 0) return 0;
  }
  return Math.min(
    FAMILY_POINTS.mostOutline,
    least === Number.POSITIVE_INFINITY ? differenceWhenMoved(one, other, 0) : least,
  );
}

function differenceWhenMoved(one: Shape, other: Shape, byFrets: number): number {
  let points = 0;
  for (let at = 0; at < one.length; at += 1) {
    const fret = one[at];
    const beside = other[at];
    if (!isStopped(fret)) {
      if (isStopped(beside)) points += FAMILY_POINTS.stringDiffers;
      continue;
    }
    if (!isStopped(beside)) points += FAMILY_POINTS.stringDiffers;
    else if (beside - fret !== byFrets) {
      const nearby = Math.abs(beside - fret - byFrets) <= NEARBY_FRETS;
      points += nearby ? FAMILY_POINTS.stringNearby : FAMILY_POINTS.stringDiffers;
    }
  }
  return points;
}

function isStopped(fret: Shape[number] | undefined): fret is number {
  return typeof fret === 'number' && fret > 0;
}
