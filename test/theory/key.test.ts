import fc from 'fast-check';
import { Mode, Scale, Key as TonalKey } from 'tonal';
import { expect, test } from 'vitest';
import {
  diatonicChords,
  keySignature,
  parseKey,
  printKey,
  scaleNotes,
  spellPitchClass,
} from '../../shared/theory/key.ts';
import { MODES } from '../../shared/theory/modes.ts';
import { parseNote, pitchClass, printNote } from '../../shared/theory/note.ts';
import { chord, key, reading, SEED } from './reading.ts';

/** Sharps are positive. Source: any theory primer: sharps enter F C G D A E B, flats B E A D G C F. */
const SIGNATURES: readonly (readonly [string, string, number])[] = [
  ['C', 'A', 0],
  ['G', 'E', 1],
  ['D', 'B', 2],
  ['A', 'F#', 3],
  ['E', 'C#', 4],
  ['B', 'G#', 5],
  ['F#', 'D#', 6],
  ['C#', 'A#', 7],
  ['F', 'D', -1],
  ['Bb', 'G', -2],
  ['Eb', 'C', -3],
  ['Ab', 'F', -4],
  ['Db', 'Bb', -5],
  ['Gb', 'Eb', -6],
  ['Cb', 'Ab', -7],
];

test.each(SIGNATURES)('%s major and %s minor have %i signs', (major, minor, signs) => {
  expect(keySignature(key(`${major} major`))).toBe(signs);
  expect(keySignature(key(`${minor} minor`))).toBe(signs);
  // tonal as a second reader.
  expect(TonalKey.majorKey(major).alteration).toBe(signs);
  const scale = (of: string) => scaleNotes(key(of)).map((note) => printNote(note));
  expect(scale(`${major} major`)).toEqual(TonalKey.majorKey(major).scale);
  expect(scale(`${minor} minor`)).toEqual(TonalKey.minorKey(minor).natural.scale);
});

test.each(['dorian', 'phrygian', 'lydian', 'mixolydian', 'aeolian', 'locrian', 'ionian'])(
  'D %s as tonal has it',
  (mode) => {
    expect(scaleNotes(key(`D ${mode}`)).map((note) => printNote(note))).toEqual(Scale.get(`D ${mode}`).notes);
  },
);

test.each([
  ['E minor', 'E minor'],
  ['Em', 'E minor'],
  ['E-', 'E minor'],
  ['Bb', 'Bb major'],
  ['B♭ Major', 'Bb major'],
  ['D dorian', 'D dorian'],
  ['F# min', 'F# minor'],
])('%s is the key of %s', (written, printed) => expect(printKey(key(written))).toBe(printed));

test.each([
  ['G# major', 'Ab major'],
  ['E minr', 'E minor'],
  ['e minor', 'E minor'],
])('%s is answered with %s', (written, instead) => {
  const read = parseKey(written);
  expect(read.ok ? undefined : read.problem.instead).toBe(instead);
});

test('the chords of a key, triads then sevenths; a minor key also has its raised dominant', () => {
  const names = (of: string) =>
    diatonicChords(key(of))
      .map((symbol) => symbol.text)
      .join(' ');
  expect(names('C')).toBe('C Dm Em F G Am Bdim Cmaj7 Dm7 Em7 Fmaj7 G7 Am7 Bm7b5');
  expect(names('E minor')).toBe('Em F#dim G Am Bm C D B Em7 F#m7b5 Gmaj7 Am7 Bm7 Cmaj7 D7 B7');
});

// Source: tonal 6.4.3, Mode.triads and Mode.seventhChords.
test.each(MODES.filter(({ mode }) => mode !== 'minor').map(({ mode }) => mode))(
  'the chords of %s are tonal’s too',
  (mode) => {
    for (const tonic of ['C', 'G', 'D', 'A', 'E', 'F', 'Bb', 'Eb']) {
      const theirs = [...Mode.triads(mode, tonic), ...Mode.seventhChords(mode, tonic)].map((text) => {
        const { root, kind } = chord(text);
        return `${printNote(root)} ${kind}`;
      });
      const ours = diatonicChords({ tonic: reading(parseNote(tonic)), mode }).map(
        ({ root, kind }) => `${printNote(root)} ${kind}`,
      );
      expect(ours).toEqual(theirs);
    }
  },
);

// In F the fourth degree is B flat; with no key B flat and E flat, F sharp and C sharp. Strength: must.
test('spelling follows the key', () => {
  const spelled = (sound: number, of?: string) =>
    printNote(spellPitchClass(sound, of === undefined ? undefined : key(of)));
  expect(spelled(10, 'F')).toBe('Bb');
  expect(spelled(10, 'D minor')).toBe('Bb');
  expect(spelled(1, 'D minor')).toBe('C#');
  expect(spelled(10, 'B')).toBe('A#');
  expect(spelled(5, 'F# minor')).toBe('E#');
  expect(Array.from({ length: 12 }, (_, sound) => spelled(sound)).join(' ')).toBe('C C# D Eb E F F# G Ab A Bb B');
});

test('every spelling sounds what was asked, and reading a key never fails by exception', () => {
  fc.assert(
    fc.property(fc.string(), fc.integer({ min: 0, max: 11 }), fc.constantFrom(...SIGNATURES), (text, sound, names) => {
      const read = parseKey(text);
      if (read.ok) expect(printKey(key(printKey(read.value)))).toBe(printKey(read.value));
      for (const of of [`${names[0]} major`, `${names[1]} minor`]) {
        expect(pitchClass(spellPitchClass(sound, key(of)))).toBe(sound);
      }
    }),
    { seed: SEED, numRuns: 500 },
  );
});
