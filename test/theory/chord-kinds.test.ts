import { Chord } from 'tonal';
import { expect, test } from 'vitest';
import type { ChordKind } from '../../shared/theory/chord-kinds.ts';
import { CHORD_KINDS, chordKindFacts } from '../../shared/theory/chord-kinds.ts';
import { parseChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { pitchClass } from '../../shared/theory/note.ts';
import { printRole, roleSemitones } from '../../shared/theory/role.ts';
import { chord, notesOf, reading } from './reading.ts';

/** Semitones above the root. Source: MusicXML 4.0, musicxml.xsd, type `kind-value`; the numbers follow from its wording. */
const MUSICXML: Readonly<Record<string, readonly number[]>> = {
  major: [0, 4, 7],
  minor: [0, 3, 7],
  augmented: [0, 4, 8],
  diminished: [0, 3, 6],
  dominant: [0, 4, 7, 10],
  'major-seventh': [0, 4, 7, 11],
  'minor-seventh': [0, 3, 7, 10],
  'diminished-seventh': [0, 3, 6, 9],
  'augmented-seventh': [0, 4, 8, 10],
  'half-diminished': [0, 3, 6, 10],
  'major-minor': [0, 3, 7, 11],
  'major-sixth': [0, 4, 7, 9],
  'minor-sixth': [0, 3, 7, 9],
  'dominant-ninth': [0, 4, 7, 10, 14],
  'major-ninth': [0, 4, 7, 11, 14],
  'minor-ninth': [0, 3, 7, 10, 14],
  'dominant-11th': [0, 4, 7, 10, 14, 17],
  'major-11th': [0, 4, 7, 11, 14, 17],
  'minor-11th': [0, 3, 7, 10, 14, 17],
  'dominant-13th': [0, 4, 7, 10, 14, 17, 21],
  'major-13th': [0, 4, 7, 11, 14, 17, 21],
  'minor-13th': [0, 3, 7, 10, 14, 17, 21],
  'suspended-second': [0, 2, 7],
  'suspended-fourth': [0, 5, 7],
  power: [0, 7],
};

test('every kind of the standard that has fixed tones has them here', () => {
  const ours = CHORD_KINDS.filter((facts) => facts.source === 'musicxml');
  const tones = Object.fromEntries(ours.map((facts) => [facts.musicxml ?? facts.kind, facts.roles.map(roleSemitones)]));
  expect(tones).toEqual(MUSICXML);
});

/**
 * The shorthands with their degrees, the root understood. Source: C. Harte, M. Sandler, S. Abdallah, E. Gómez, Symbolic representation
 * of musical chords, ISMIR 2005, as two open implementations of it have them (the table in print not seen).
 */
const HARTE: readonly (readonly [shorthand: string, kind: ChordKind, degrees: string])[] = [
  ['maj', 'major', '3 5'],
  ['min', 'minor', 'b3 5'],
  ['dim', 'diminished', 'b3 b5'],
  ['aug', 'augmented', '3 #5'],
  ['maj7', 'major-seventh', '3 5 7'],
  ['min7', 'minor-seventh', 'b3 5 b7'],
  ['7', 'dominant', '3 5 b7'],
  ['dim7', 'diminished-seventh', 'b3 b5 bb7'],
  ['hdim7', 'half-diminished', 'b3 b5 b7'],
  ['minmaj7', 'minor-major-seventh', 'b3 5 7'],
  ['maj6', 'major-sixth', '3 5 6'],
  ['min6', 'minor-sixth', 'b3 5 6'],
  ['9', 'dominant-ninth', '3 5 b7 9'],
  ['maj9', 'major-ninth', '3 5 7 9'],
  ['min9', 'minor-ninth', 'b3 5 b7 9'],
  ['sus4', 'suspended-fourth', '4 5'],
];

test.each(HARTE)('the shorthand %s has the degrees of %s, and reads as that chord', (shorthand, kind, degrees) => {
  const { roles } = chordKindFacts(kind);
  expect(roles.map((role) => printRole(role, 'letters')).join(' ')).toBe(`1 ${degrees}`);
  expect(chord(`C${shorthand}`)).toMatchObject({ kind, alterations: [], additions: [], omissions: [] });
});

test.each(CHORD_KINDS.map((facts) => [facts.suffix, facts] as const))('C%s reads back as its kind', (suffix, facts) => {
  const symbol = reading(parseChordSymbol(`C${suffix}`));
  expect(symbol).toMatchObject({ kind: facts.kind, alterations: [], additions: [], omissions: [] });
});

/** What `tonal` 6.4.3 takes differently, with the reason. */
const TONAL_DIFFERS: Readonly<Record<string, string>> = {
  '11': 'tonal leaves the third out of an eleventh; the standard keeps it',
  maj11: 'unknown to tonal under this name',
  '13': 'tonal leaves the eleventh out of a thirteenth; the standard keeps it',
  maj13: 'tonal leaves the eleventh out of a thirteenth; the standard keeps it',
  m13: 'tonal leaves the eleventh out of a thirteenth; the standard keeps it',
  '7alt': 'tonal names one choice of the altered tones; here all of them belong',
  'm(maj7)': 'unknown to tonal under this spelling',
  'dim(maj7)': 'unknown to tonal under this spelling',
  'm(maj9)': 'unknown to tonal under this spelling',
  'm6/9': 'unknown to tonal under this spelling',
  sus2sus4: 'unknown to tonal under this spelling',
  '7sus2': 'unknown to tonal',
  maj7sus2: 'unknown to tonal',
  maj7sus4: 'known to tonal as M7sus4 only',
};

test('tones agree with tonal wherever it knows the name', () => {
  const differing: string[] = [];
  for (const { suffix } of CHORD_KINDS) {
    const theirs = Chord.get(`C${suffix}`).notes.join(' ');
    if (theirs !== notesOf(`C${suffix}`)) differing.push(suffix);
  }
  // Both ways: a difference without a reason fails, and so does a reason that is none any more.
  expect(differing.sort()).toEqual(Object.keys(TONAL_DIFFERS).sort());
});

test('a thirteenth has the sixth of the major scale also over a minor third (J. Morell, Theory III handout)', () => {
  expect(notesOf('Cm13')).toBe('C Eb G Bb D F A');
  expect(pitchClass(chord('Cm13').root)).toBe(0);
});
