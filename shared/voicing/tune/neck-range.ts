import type { Instrument } from '../../neck/instrument.ts';
import { midiNumber } from '../../theory/note.ts';

/** A place on the neck, its string as a place in chart order. */
export interface NeckPlace {
  readonly stringIndex: number;
  readonly fret: number;
}

/** MIDI numbers of the open strings in chart order, the capo added. */
export function openMidi({ openStrings, capoFret }: Instrument): readonly number[] {
  return openStrings.map((pitch) => midiNumber(pitch) + capoFret);
}

/** The highest fret as the hand counts it. */
export function lastFret({ frets, capoFret }: Instrument): number {
  return frets - capoFret;
}

/** Every place that sounds the pitch, string 1 first. The pitch decides: of the strings none is taken to be the lower one. */
export function placesOf(instrument: Instrument, midi: number): readonly NeckPlace[] {
  const last = lastFret(instrument);
  return openMidi(instrument)
    .map((open, stringIndex) => ({ stringIndex, fret: midi - open }))
    .filter(({ fret }) => fret >= 0 && fret <= last)
    .reverse();
}
