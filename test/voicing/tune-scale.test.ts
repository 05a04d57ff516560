import { Scale } from 'tonal';
import { describe, expect, test } from 'vitest';
import { printKey } from '../../shared/theory/key.ts';
import { printNote } from '../../shared/theory/note.ts';
import { printRole } from '../../shared/theory/role.ts';
import { keyOfChords } from '../../shared/voicing/tune/key-of-chords.ts';
import { readScale, scaleOfKey, tonesOver } from '../../shared/voicing/tune/scale.ts';
import { SCALES } from '../../shared/voicing/tune/scale-table.ts';
import { chord, key, reading } from '../theory/reading.ts';

function over(scale: string, name: string, freely: boolean): string {
  const tones = tonesOver(reading(readScale(scale)), chord(name), freely);
  return tones
    .flatMap((tone) => (tone === undefined ? [] : [`${printNote(tone.note)}${tone.inChord ? '' : '*'}`]))
    .join(' ');
}

describe('the scales that a tune keeps to', () => {
  // Source: the scale dictionary of the library tonal, which names blues and harmonic minor alike.
  test.each(SCALES.map(({ name }) => name))('%s has the notes of the dictionary, on every usual home note', (name) => {
    for (const home of ['C', 'G', 'D', 'A', 'E', 'F', 'Bb', 'Eb']) {
      const ours = reading(readScale(`${home} ${name}`));
      const theirs = Scale.get(`${home} ${name}`);
      expect(theirs.empty).toBe(false);
      expect(ours.notes.map((note) => printNote(note))).toEqual(theirs.notes);
    }
  });

  test.each([
    ['Em', 'E minor'],
    ['E minor', 'E minor'],
    ['Bb', 'Bb major'],
    ['A Minor Pentatonic', 'A minor pentatonic'],
    ['F# dorian', 'F# dorian'],
  ])('%s is read as %s', (written, name) => expect(reading(readScale(written)).name).toBe(name));

  test.each([
    ['A minor pentatonik', 'A minor pentatonic'],
    ['Q major', undefined],
    ['A blue', 'A blues'],
  ])('%s is told, with what is near', (written, instead) => {
    const read = readScale(written);
    expect(read.ok ? undefined : read.problem.instead).toBe(instead);
    expect(read.ok).toBe(false);
  });

  test('a key gives the same notes as its scale', () => {
    const { name, notes, roles } = scaleOfKey(key('D dorian'));
    expect(name).toBe('D dorian');
    expect(notes.map((note) => printNote(note)).join(' ')).toBe('D E F G A B C');
    expect(roles.map((role) => printRole(role, 'letters')).join(' ')).toBe('1 2 b3 4 5 6 b7');
  });
});

describe('what may sound over a chord', () => {
  // Listed from C up; a star stands behind what is no tone of the chord.
  test.each([
    ['E minor', 'Em', 'C* D* E F#* G A* B'],
    ['C major', 'G7', 'C* D E* F G A* B'],
    ['A minor pentatonic', 'Am', 'C D* E G* A'],
  ])('in %s over %s: %s', (scale, name, tones) => expect(over(scale, name, true)).toBe(tones));

  test('the leading note of the dominant takes the place of the seventh step', () => {
    expect(over('A minor', 'E7', true)).toBe('C* D E F* G# A* B');
  });

  test('a scale that was chosen is kept to, without what the chord has raised', () => {
    expect(over('A minor', 'E7', false)).toBe('C* D E F* A* B');
    expect(over('A minor pentatonic', 'E7', false)).toBe('C* D E A*');
  });
});

// Common practice, no source: the key that most of the chords have, home first and last.
test.each([
  ['Em C G D', 'E minor'],
  ['C Am F G7', 'C major'],
  ['Am Dm E7 Am', 'A minor'],
  ['F Bb C7 F', 'F major'],
  ['D A Bm G D', 'D major'],
  ['Gm Cm D7 Gm', 'G minor'],
  ['Bb Eb F7 Bb', 'Bb major'],
])('%s is in %s', (written, name) => expect(printKey(keyOfChords(written.split(' ').map(chord)))).toBe(name));
