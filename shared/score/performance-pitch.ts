import type { Technique } from '../lesson/syntax/marks.ts';
import type { Instrument } from '../neck/instrument.ts';
import { midiAt } from '../neck/pitches.ts';

/** MIDI number of a string by its number, 1 nearest the floor, stopped at a fret; nothing where there is no such string. */
export function midiOn(instrument: Instrument, string: number, fret: number): number | undefined {
  return midiAt(instrument, instrument.openStrings.length - string, fret);
}

/**
 * Touched over these frets the open string sounds so many semitones above itself. Source: the frets lie nearest to a half, a third, a
 * quarter and a fifth of the string, whose sounds are partials 2 to 5 of it (harmonic series), rounded to semitones.
 */
const NATURAL_HARMONICS: Readonly<Record<number, number>> = {
  12: 12,
  7: 19,
  19: 19,
  5: 24,
  24: 24,
  4: 28,
  9: 28,
  16: 28,
};

/** Whether the open string has a harmonic over this fret. */
export function isNaturalHarmonic(fret: number): boolean {
  return NATURAL_HARMONICS[fret] !== undefined;
}

/** MIDI number of a harmonic. Over any other fret the string is held there and touched an octave higher. */
export function harmonicMidi(instrument: Instrument, string: number, fret: number): number | undefined {
  const above = NATURAL_HARMONICS[fret];
  const base = midiOn(instrument, string, above === undefined ? fret : 0);
  return base === undefined ? undefined : base + (above ?? 12);
}

/** How far a bend goes where the lesson only says that there is one. Unit: semitones. Common practice on nylon strings, no source. */
export const BEND_SEMITONES = 1;

export function has(techniques: readonly Technique[], kind: Technique['kind']): boolean {
  return techniques.some((technique) => technique.kind === kind);
}
