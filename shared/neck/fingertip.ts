import { fretDistanceMm, fretPositionMm } from './fret-positions.ts';
import type { Instrument } from './instrument.ts';

/**
 * From the middle of a pressing fingertip back to the wire in front of it: a string sounds clean and light close behind its fret.
 * Unit: mm. Source: common practice, no source.
 */
export const TIP_BEHIND_WIRE_MM = 5;

/**
 * Where a fingertip presses, from the nut: just behind the wire, or in the middle of a space that is too narrow for that.
 * The fret counts from the nut without the capo, and is 1 or more. Unit: mm.
 */
export function fingertipMm(scaleLengthMm: number, fret: number): number {
  const space = fretDistanceMm(scaleLengthMm, fret - 1, fret);
  return fretPositionMm(scaleLengthMm, fret) - Math.min(TIP_BEHIND_WIRE_MM, space / 2);
}

/**
 * True when this many tips of this width have room in one fret space on neighbouring strings, each a little behind the one before:
 * tips wider than the strings are apart must stand in a slanting row, which the space has to hold. The fret counts from the nut
 * without the capo; `pitchMm` is the distance of the strings there.
 */
export function tipsFit(instrument: Instrument, fret: number, tips: number, tipWidthMm: number, pitchMm: number): boolean {
  const space = fretDistanceMm(instrument.scaleLengthMm, fret - 1, fret);
  const stagger = Math.sqrt(Math.max(0, tipWidthMm ** 2 - pitchMm ** 2));
  return (tips - 1) * stagger <= space - Math.min(TIP_BEHIND_WIRE_MM, space / 2);
}
