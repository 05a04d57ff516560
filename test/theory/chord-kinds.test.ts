import { Chord } from 'tonal';
import { expect, test } from 'vitest';
import { CHORD_KINDS } from '../../shared/theory/chord-kinds.ts';
import { parseChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { pitchClass } from '../../shared/theory/note.ts';
import { roleSemitones } from '../../shared/theory/role.ts';
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
