import type { Instrument } from '../neck/instrument.ts';
import { midiAt } from '../neck/pitches.ts';
import type { ScoreNote } from '../score/timeline.ts';

/** How far a bend without a figure goes. Unit: semitones. Common practice on nylon strings, no source. */
export const BEND_SEMITONES = 1;

/**
 * What sounds over the open string where it is only touched at a fret. Unit: semitones. Source: the string divides in two (12), three
 * (7, 19), four (5) and five (4, 9, 16) parts, whose partials lie an octave, a twelfth, two octaves and two octaves with a third
 * above the open string; harmonic series, rounded to equal temperament.
 */
const NATURAL_HARMONICS: ReadonlyMap<number, number> = new Map([
  [4, 28],
  [5, 24],
  [7, 19],
  [9, 28],
  [12, 12],
  [16, 28],
  [19, 19],
  [24, 24],
]);

/** Whether the open string has a harmonic at this fret; elsewhere a harmonic is one of the stopped note, an octave above it. */
export function isNaturalHarmonic(fret: number): boolean {
  return NATURAL_HARMONICS.has(fret);
}

export function isHarmonic(note: Pick<ScoreNote, 'techniques' | 'arrivesBy'>): boolean {
  return note.arrivesBy === 'harmonic' || note.techniques.some(({ kind }) => kind === 'harmonic');
}

/** MIDI number of a string at a fret, the capo added. Nothing where the instrument has no such string. */
export function midiOfString(instrument: Instrument, string: number, fret: number): number | undefined {
  return midiAt(instrument, instrument.openStrings.length - string, fret);
}

/** MIDI number of a note as it is heard when it is struck. A harmonic is heard higher than its fret. */
export function midiOfNote(
  instrument: Instrument,
  note: Pick<ScoreNote, 'string' | 'fret' | 'techniques' | 'arrivesBy'>,
): number | undefined {
  const harmonic = isHarmonic(note) ? NATURAL_HARMONICS.get(note.fret) : undefined;
  if (harmonic !== undefined) return midiOfString(instrument, note.string, harmonic);
  const stopped = midiOfString(instrument, note.string, note.fret);
  return stopped === undefined || !isHarmonic(note) ? stopped : stopped + 12;
}
