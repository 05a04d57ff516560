import { fretPositionMm } from './fret-positions.ts';
import type { Instrument } from './instrument.ts';

/**
 * Between neighbouring strings above a fret, counted from the nut without the capo. Unit: mm. Strings are straight, so that their
 * distance grows evenly from nut to saddle.
 */
export function stringPitchAtFretMm(instrument: Instrument, fret: number): number {
  const { stringPitchMm, bridgePitchMm, scaleLengthMm } = instrument;
  return stringPitchMm + ((bridgePitchMm - stringPitchMm) * fretPositionMm(scaleLengthMm, fret)) / scaleLengthMm;
}
