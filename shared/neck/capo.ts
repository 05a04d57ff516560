import { fretPositionMm } from './fret-positions.ts';
import type { Instrument } from './instrument.ts';
import { stringPitchAtFretMm } from './string-spacing.ts';

const aboveCapo = new WeakMap<Instrument, Instrument>();

/**
 * The neck above the capo as an instrument of its own, with the capo for its nut. Chords are named and shapes are found on it:
 * names in a lesson are those of the shapes that the hand holds, whatever the capo makes of their sound. The same instrument
 * always gives the same one, so that what is kept for it is found again.
 */
export function neckAboveCapo(instrument: Instrument): Instrument {
  const { capoFret } = instrument;
  if (capoFret === 0) return instrument;
  const known = aboveCapo.get(instrument);
  if (known !== undefined) return known;
  const above = {
    ...instrument,
    scaleLengthMm: instrument.scaleLengthMm - fretPositionMm(instrument.scaleLengthMm, capoFret),
    frets: instrument.frets - capoFret,
    stringPitchMm: stringPitchAtFretMm(instrument, capoFret),
    capoFret: 0,
  };
  aboveCapo.set(instrument, above);
  return above;
}
