import { fingertipMm } from '../neck/fingertip.ts';
import { fretDistanceMm } from '../neck/fret-positions.ts';
import type { Instrument } from '../neck/instrument.ts';
import { stringPitchAtFretMm } from '../neck/string-spacing.ts';

/** One fret of a neck, for a finger that goes to it. Unit: mm. */
export interface FretInMm {
  /** From the nut to the pressing tip. */
  readonly tipMm: number;
  /** Its space along the neck. */
  readonly spaceMm: number;
  /** Between neighbouring strings there. */
  readonly pitchMm: number;
}

/** A fret as the hand counts it, from the capo; 1 or more. */
export type NeckInMm = (fret: number) => FretInMm;

/** The neck of an instrument, each fret worked out when it is first asked for. */
export function neckInMm(instrument: Instrument): NeckInMm {
  const { scaleLengthMm, capoFret } = instrument;
  const known: FretInMm[] = [];
  return (fret) => {
    const before = known[fret];
    if (before !== undefined) return before;
    const fromNut = capoFret + fret;
    const here: FretInMm = {
      tipMm: fingertipMm(scaleLengthMm, fromNut),
      spaceMm: fretDistanceMm(scaleLengthMm, fromNut - 1, fromNut),
      pitchMm: stringPitchAtFretMm(instrument, fromNut),
    };
    known[fret] = here;
    return here;
  };
}
