import type { Shape } from '../../neck/shape.ts';

/** The lowest fret that is stopped, which tells where on the neck a shape lies; nothing where no string is. */
export function placeOf(shape: Shape): number | undefined {
  let lowest: number | undefined;
  for (const fret of shape) {
    if (fret !== 'muted' && fret > 0 && (lowest === undefined || fret < lowest)) lowest = fret;
  }
  return lowest;
}

/** The shape moved along the neck until its lowest stopped fret is the first: the same for shapes that look the same to the hand. */
export function outlineOf(shape: Shape): Shape {
  const place = placeOf(shape);
  if (place === undefined) return shape;
  return shape.map((fret) => (fret === 'muted' || fret === 0 ? fret : fret - place + 1));
}

/**
 * How many strings differ between the outlines of two shapes of as many strings, once one is moved along the neck to where most of it
 * lies like the other: 0 for the same outline, whatever the frets. Only stopped strings make an outline; whether another one rings
 * or is silent does not matter here.
 */
export function stringsThatDiffer(one: Shape, other: Shape): number {
  let least = Number.POSITIVE_INFINITY;
  for (let at = 0; at < one.length; at += 1) {
    const fret = one[at];
    const beside = other[at];
    // Moved by a way that brings no string to where the other has it, every stopped string differs: such ways come to no less.
    if (isStopped(fret) && isStopped(beside)) least = Math.min(least, differingWhenMoved(one, other, beside - fret));
    if (least === 0) return 0;
  }
  return least === Number.POSITIVE_INFINITY ? differingWhenMoved(one, other, 0) : least;
}

function differingWhenMoved(one: Shape, other: Shape, byFrets: number): number {
  let differing = 0;
  for (let at = 0; at < one.length; at += 1) {
    const fret = one[at];
    const beside = other[at];
    if (isStopped(fret)) {
      if (!isStopped(beside) || beside - fret !== byFrets) differing += 1;
    } else if (isStopped(beside)) differing += 1;
  }
  return differing;
}

function isStopped(fret: Shape[number] | undefined): fret is number {
  return typeof fret === 'number' && fret > 0;
}
