import { type Key, printKey } from '../theory/key.ts';
import { keyMovedBy } from '../theory/moved-key.ts';
import { printNote } from '../theory/note.ts';
import type { Instrument } from './instrument.ts';
import { namesMoveBy } from './tuning-distance.ts';

/** Higher than this a capo changes the sound too much, and little neck is left. Unit: frets. Common practice, no source. */
const HIGHEST_TO_MATCH = 5;

/**
 * At which fret a capo makes the same shapes sound like the lesson's own again, octaves left out. Nothing where they do so anyhow,
 * where the strings lie otherwise to each other, where a capo is on already, or where it would stand too high.
 */
export function capoToMatch(own: Instrument, other: Instrument): number | undefined {
  const moved = namesMoveBy(own, other);
  if (moved === undefined || other.capoFret > 0) return undefined;
  const fret = (12 - moved + own.capoFret) % 12;
  return fret > 0 && fret <= HIGHEST_TO_MATCH ? fret : undefined;
}

/**
 * At which fret a capo makes the same names sound like the lesson's own, on an instrument whose shapes are found for those names: where
 * the lesson's own is; 0 where it has none. Nothing where they do so anyhow, or where the capo would stand too high.
 */
export function capoToJoin(own: Instrument, other: Instrument): number | undefined {
  const { capoFret } = own;
  return capoFret === other.capoFret || capoFret > HIGHEST_TO_MATCH ? undefined : capoFret;
}

/** `Shapes of D major with capo 5 sound in G major: D + 5 = G.` */
export function tellCapo(key: Key, capo: number): string {
  const sounding = keyMovedBy(key, capo);
  const [from, to] = [printNote(key.tonic), printNote(sounding.tonic)];
  return `Shapes of ${printKey(key)} with capo ${capo} sound in ${printKey(sounding)}: ${from} + ${capo} = ${to}.`;
}
