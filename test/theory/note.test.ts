import { expect, test } from 'vitest';
import {
  CONCERT_A4_HZ,
  frequencyHz,
  midiNumber,
  parseNote,
  parsePitch,
  pitchClass,
  pitchNamed,
  printNote,
  printPitch,
} from '../../shared/theory/note.ts';
import { reading } from './reading.ts';

/** Source: CRC Handbook of Chemistry and Physics, section 14, "equal tempered scale"; B. H. Suits, "Frequencies of musical notes". */
const PUBLISHED_HZ: readonly (readonly [string, number, number])[] = [
  ['E2', 40, 82.407],
  ['D3', 50, 146.83],
  ['G3', 55, 196.0],
  ['B3', 59, 246.94],
  ['C4', 60, 261.63],
  ['D4', 62, 293.66],
  ['E4', 64, 329.63],
  ['F4', 65, 349.23],
  ['F#4', 66, 369.99],
  ['G4', 67, 392.0],
  ['A4', 69, 440.0],
  ['B4', 71, 493.88],
  ['C5', 72, 523.25],
  ['A5', 81, 880.0],
];

test.each(PUBLISHED_HZ)('%s is MIDI note %i at %f Hz', (name, midi, hertz) => {
  expect(midiNumber(reading(parsePitch(name)))).toBe(midi);
  const digits = hertz < 100 ? 3 : 2;
  expect(frequencyHz(midi).toFixed(digits)).toBe(hertz.toFixed(digits));
});

test('the exact semitones from C4 to G4 (OEIS A329207)', () => {
  expect(frequencyHz(60)).toBeCloseTo(261.6255653005986, 9);
  expect(frequencyHz(62)).toBeCloseTo(293.6647679174, 9);
  expect(frequencyHz(64)).toBeCloseTo(329.6275569128, 9);
  expect(frequencyHz(66)).toBeCloseTo(369.9944227116, 9);
  expect(frequencyHz(67)).toBeCloseTo(391.9954359817, 9);
  // ISO 16:1975 asks for 440 Hz within half a hertz.
  expect(Math.abs(frequencyHz(69) - CONCERT_A4_HZ)).toBeLessThan(0.5);
});

test.each([
  ['Bb', 'Bb', 10],
  ['B♭', 'Bb', 10],
  ['C♯', 'C#', 1],
  ['C#', 'C#', 1],
  ['Ebb', 'Ebb', 2],
  ['E𝄫', 'Ebb', 2],
  ['E♭♭', 'Ebb', 2],
  ['F##', 'F##', 7],
  ['Fx', 'F##', 7],
  ['F𝄪', 'F##', 7],
  ['Cb', 'Cb', 11],
  ['B#', 'B#', 0],
])('%s reads as %s', (written, printed, sound) => {
  const note = reading(parseNote(written));
  expect(printNote(note)).toBe(printed);
  expect(pitchClass(note)).toBe(sound);
});

test('prints real signs when asked', () => {
  expect(printNote(reading(parseNote('Bb')), 'signs')).toBe('B♭');
  expect(printPitch(reading(parsePitch('F##4')), 'signs')).toBe('F♯♯4');
});

test('B sharp lies in the octave below the C that it sounds', () => {
  expect(printPitch(pitchNamed(reading(parseNote('B#')), 60))).toBe('B#3');
  expect(printPitch(pitchNamed(reading(parseNote('Cb')), 59))).toBe('Cb4');
});

test.each([
  ['b', 'B'],
  ['eb', 'Eb'],
])('the small letter in %s is answered with the capital', (written, instead) => {
  const read = parseNote(written);
  expect(read.ok ? undefined : read.problem.instead).toBe(instead);
});

test.each(['', 'H', 'Bbbb', 'C4', '?'])('"%s" is no note', (written) => expect(parseNote(written).ok).toBe(false));
test.each(['', 'G', '4', 'G44', 'H4'])('"%s" is no pitch', (written) => expect(parsePitch(written).ok).toBe(false));
