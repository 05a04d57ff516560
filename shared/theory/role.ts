import type { AccidentalStyle, Note } from './note.ts';
import { letterAbove, noteOnLetter, pitchClass, printAccidental } from './note.ts';

/**
 * What a tone is to the root of its chord, counted on the root's major scale: the minor third is degree 3 lowered by one.
 * `degree` runs from 1 to 13, `alter` from −2 to 2 semitones.
 */
export interface Role {
  readonly degree: number;
  readonly alter: number;
}

/** Semitones of the major scale's degrees 1 to 7 above the first. Source: definition of the major scale. */
const DEGREE_SEMITONES: readonly number[] = [0, 2, 4, 5, 7, 9, 11];

/** Semitones above the root, 0 to 22: the ninth is 14. */
export function roleSemitones(role: Role): number {
  const within = DEGREE_SEMITONES[(role.degree - 1) % 7] ?? 0;
  return within + 12 * Math.floor((role.degree - 1) / 7) + role.alter;
}

/** Pitch class above the root, 0 to 11: the ninth is 2. */
export function rolePitchClass(role: Role): number {
  return (roleSemitones(role) + 12) % 12;
}

/** The note that has this role over the root, spelled by letter: a third above C is some kind of E. */
export function noteOfRole(root: Note, role: Role): Note {
  return noteOnLetter(letterAbove(root.letter, role.degree - 1), (pitchClass(root) + rolePitchClass(role)) % 12);
}

/** `1`, `♭3`, `9`, `♯11`; with letters `b3`, `#11`. */
export function printRole(role: Role, style: AccidentalStyle = 'signs'): string {
  return printAccidental(role.alter, style) + String(role.degree);
}

const DEGREE_WORDS: Readonly<Record<number, string>> = {
  1: 'root',
  2: 'second',
  3: 'third',
  4: 'fourth',
  5: 'fifth',
  6: 'sixth',
  7: 'seventh',
  9: 'ninth',
  11: 'eleventh',
  13: 'thirteenth',
};

/** `root`, `third`, `ninth`, whatever its alteration. */
export function roleInWords(role: Role): string {
  return DEGREE_WORDS[role.degree] ?? printRole(role);
}

export function sameRole(a: Role, b: Role): boolean {
  return a.degree === b.degree && a.alter === b.alter;
}

/** Order in which roles are listed: by degree, then from the lowered to the raised. */
export function compareRoles(a: Role, b: Role): number {
  return a.degree - b.degree || a.alter - b.alter;
}
