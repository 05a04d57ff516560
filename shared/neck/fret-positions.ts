/** Each fret shortens the string by this ratio. Unit: none. Source: definition of twelve-tone equal temperament. */
const FRET_RATIO = 2 ** (1 / 12);

/**
 * From the nut to the wire of a fret. Unit: mm, as the scale length is. Fret 0 is the nut itself.
 * Source: d(n) = L · (1 − 2^(−n/12)), e.g. "Guitar Scale Length", Georgia Luthier Supply.
 */
export function fretPositionMm(scaleLengthMm: number, fret: number): number {
  return scaleLengthMm * (1 - FRET_RATIO ** -fret);
}

/** Along the neck from one fret's wire to a higher one's. Unit: mm. */
export function fretDistanceMm(scaleLengthMm: number, lowFret: number, highFret: number): number {
  return fretPositionMm(scaleLengthMm, highFret) - fretPositionMm(scaleLengthMm, lowFret);
}
