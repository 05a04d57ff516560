/** A note's letter on the staff. */
export type Letter = 'A' | 'B' | 'C' | 'D' | 'E' | 'F' | 'G';

/** A spelled note without octave: C♯ and D♭ are two different notes. `accidental` counts semitones, −2 (double flat) to 2. */
export interface Note {
  readonly letter: Letter;
  readonly accidental: number;
}

/** A spelled note with its octave in scientific pitch notation: middle C is C4. */
export interface Pitch extends Note {
  readonly octave: number;
}

/** Semitones above C of the natural letters. Source: definition of the diatonic scale. */
const LETTER_SEMITONES: Readonly<Record<Letter, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** Semitones above C, 0 to 11. */
export function pitchClass(note: Note): number {
  return (((LETTER_SEMITONES[note.letter] + note.accidental) % 12) + 12) % 12;
}

/** MIDI note number; middle C (C4) is 60, A4 is 69. Source: MIDI 1.0 Detailed Specification (from memory). */
export function midiNumber(pitch: Pitch): number {
  return 12 * (pitch.octave + 1) + LETTER_SEMITONES[pitch.letter] + pitch.accidental;
}
