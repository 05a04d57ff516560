import type { Outcome } from '../text/problem.ts';

/** A note's letter on the staff. */
export type Letter = 'A' | 'B' | 'C' | 'D' | 'E' | 'F' | 'G';

/**
 * A spelled note without octave: C♯ and D♭ are two different notes.
 * `accidental` counts semitones, −2 (double flat) to 2 in what a teacher writes; a chord tone spelled by letter may go one further.
 */
export interface Note {
  readonly letter: Letter;
  readonly accidental: number;
}

/** A spelled note with its octave in scientific pitch notation: middle C is C4. */
export interface Pitch extends Note {
  readonly octave: number;
}

/** `letters` prints `Bb` and `F#`, as they are typed; `signs` prints `B♭` and `F♯`. */
export type AccidentalStyle = 'letters' | 'signs';

/** Sounding frequency of A4. Unit: Hz. Source: ISO 16:1975. */
export const CONCERT_A4_HZ = 440;

/** The seven letters as they rise from C. Source: definition of the diatonic scale. */
export const LETTERS: readonly Letter[] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

/** Semitones above C of the natural letters. Source: definition of the diatonic scale. */
const LETTER_SEMITONES: Readonly<Record<Letter, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** Every way an accidental is written, longest first, with its semitones. Source: common practice, no source. */
const ACCIDENTALS: readonly (readonly [string, number])[] = [
  ['♭♭', -2],
  ['♯♯', 2],
  ['bb', -2],
  ['##', 2],
  ['𝄫', -2],
  ['𝄪', 2],
  ['♭', -1],
  ['♯', 1],
  ['♮', 0],
  ['b', -1],
  ['#', 1],
  ['x', 2],
];

/** Semitones above C, 0 to 11. */
export function pitchClass(note: Note): number {
  return (((LETTER_SEMITONES[note.letter] + note.accidental) % 12) + 12) % 12;
}

/** MIDI note number; middle C (C4) is 60, A4 is 69. Source: MIDI 1.0 Detailed Specification (from memory). */
export function midiNumber(pitch: Pitch): number {
  return 12 * (pitch.octave + 1) + LETTER_SEMITONES[pitch.letter] + pitch.accidental;
}

/** Equal-tempered frequency of a MIDI note number. Unit: Hz. Source: f(n) = 440 · 2^((n − 69) / 12), CRC Handbook, section 14. */
export function frequencyHz(midi: number): number {
  return CONCERT_A4_HZ * 2 ** ((midi - 69) / 12);
}

/** True when letter and accidental are the same: C♯ is not D♭. */
export function sameNote(a: Note, b: Note): boolean {
  return a.letter === b.letter && a.accidental === b.accidental;
}

/** The letter `steps` above (or, when negative, below): two steps above A is C. */
export function letterAbove(letter: Letter, steps: number): Letter {
  const at = (((LETTERS.indexOf(letter) + steps) % 7) + 7) % 7;
  return LETTERS[at] ?? letter;
}

/** The note of this letter that sounds as the pitch class, with the smallest accidental: 10 as a B is B♭. */
export function noteOnLetter(letter: Letter, pitchClassWanted: number): Note {
  const distance = (((pitchClassWanted - LETTER_SEMITONES[letter]) % 12) + 12) % 12;
  return { letter, accidental: distance > 6 ? distance - 12 : distance };
}

/** The pitch of a MIDI note number under the given note name; the name decides the octave's number (B♯3 is C4). */
export function pitchNamed(note: Note, midi: number): Pitch {
  return { ...note, octave: Math.round((midi - LETTER_SEMITONES[note.letter] - note.accidental) / 12) - 1 };
}

/** The accidental at `at`, or none; never fails. Used where a note stands at the head of a longer word. */
export function accidentalAt(text: string, at: number): { readonly accidental: number; readonly end: number } {
  for (const [sign, accidental] of ACCIDENTALS) {
    if (text.startsWith(sign, at)) return { accidental, end: at + sign.length };
  }
  return { accidental: 0, end: at };
}

/** Reads `Bb`, `B♭`, `F##`, `Fx`, `F𝄪`. The letter is a capital; a small one is answered with the capital in `instead`. */
export function parseNote(text: string): Outcome<Note> {
  const head = text.charAt(0);
  const letter = LETTERS.find((candidate) => candidate === head);
  if (letter === undefined) return notANote(text);
  const { accidental, end } = accidentalAt(text, 1);
  if (end !== text.length) return notANote(text);
  return { ok: true, value: { letter, accidental } };
}

/** Reads `G4` or `Bb3`: a note and the number of its octave, middle C being C4. */
export function parsePitch(text: string): Outcome<Pitch> {
  const octaveText = /-?\d+$/.exec(text)?.[0];
  if (octaveText === undefined) {
    const message = 'A pitch is a note and the number of its octave, as in G4; middle C is C4.';
    return { ok: false, problem: { code: 'pitch.without-octave', message, span: { start: 0, end: text.length } } };
  }
  const note = parseNote(text.slice(0, text.length - octaveText.length));
  if (!note.ok) return note;
  const octave = Number(octaveText);
  if (octave < -1 || octave > 9) {
    const message = 'Octaves are numbered from -1 to 9; middle C is C4.';
    const span = { start: text.length - octaveText.length, end: text.length };
    return { ok: false, problem: { code: 'pitch.no-such-octave', message, span } };
  }
  return { ok: true, value: { ...note.value, octave } };
}

/** `Bb`, or `B♭` with signs. */
export function printNote(note: Note, style: AccidentalStyle = 'letters'): string {
  return note.letter + printAccidental(note.accidental, style);
}

/** `Bb3`, or `B♭3` with signs. */
export function printPitch(pitch: Pitch, style: AccidentalStyle = 'letters'): string {
  return printNote(pitch, style) + String(pitch.octave);
}

/** `b`, `##`, or nothing for a natural note. */
export function printAccidental(accidental: number, style: AccidentalStyle): string {
  const [flat, sharp] = style === 'signs' ? ['♭', '♯'] : ['b', '#'];
  return (accidental < 0 ? flat : sharp).repeat(Math.abs(accidental));
}

function notANote(text: string): Outcome<never> {
  const capital = text.charAt(0).toUpperCase() + text.slice(1);
  const readable = capital !== text && parseNote(capital).ok;
  const message = readable
    ? `A note has a capital letter: ${capital}.`
    : `"${text}" is not a note: a letter from A to G, then # or b where it is raised or lowered.`;
  const fault = { code: 'note.unreadable', message, span: { start: 0, end: text.length } };
  return { ok: false, problem: readable ? { ...fault, instead: capital } : fault };
}
