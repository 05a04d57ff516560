import { fretDistanceMm, fretPositionMm } from './fret-positions.ts';

/**
 * From the middle of a pressing fingertip back to the wire in front of it: a string sounds clean and light close behind its fret.
 * Unit: mm. Source: common practice, no source.
 */
const TIP_BEHIND_WIRE_MM = 5;

/**
 * Where a fingertip presses, from the nut: just behind the wire, or in the middle of a space that is too narrow for that.
 * The fret counts from the nut without the capo, and is 1 or more. Unit: mm.
 */
export function fingertipMm(scaleLengthMm: number, fret: number): number {
  const space = fretDistanceMm(scaleLengthMm, fret - 1, fret);
  return fretPositionMm(scaleLengthMm, fret) - Math.min(TIP_BEHIND_WIRE_MM, space / 2);
}

/**
 * How far two tips of this width must stand one behind the other along the neck when their strings are this far apart: tips that are
 * wider than that stand aslant. Unit: mm.
 */
export function staggerMm(tipWidthMm: number, acrossMm: number): number {
  return Math.sqrt(Math.max(0, tipWidthMm ** 2 - acrossMm ** 2));
}

/** How long a slanting row of tips in one fret space may be, from the first tip to the last. Unit: mm. */
export function roomForTipsMm(scaleLengthMm: number, fret: number): number {
  const space = fretDistanceMm(scaleLengthMm, fret - 1, fret);
  return space - Math.min(TIP_BEHIND_WIRE_MM, space / 2);
}
