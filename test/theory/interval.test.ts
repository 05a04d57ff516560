import { Interval, Note as NoteOf } from 'tonal';
import { expect, test } from 'vitest';
import { intervalName } from '../../shared/theory/interval.ts';
import type { Note } from '../../shared/theory/note.ts';
import { LETTERS, midiNumber, parseNote, parsePitch, printNote, printPitch } from '../../shared/theory/note.ts';
import { reading } from './reading.ts';

const note = (text: string): Note => reading(parseNote(text));

/** Source: the names of the intervals of the major scale and their bent forms, any theory primer; common practice. */
test.each([
  ['C', 'C', 'unison'],
  ['E', 'F', 'minor second'],
  ['C', 'D', 'major second'],
  ['C', 'Eb', 'minor third'],
  ['A', 'C#', 'major third'],
  ['C', 'D#', 'augmented second'],
  ['G', 'C', 'perfect fourth'],
  ['F', 'B', 'augmented fourth'],
  ['B', 'F', 'diminished fifth'],
  ['D', 'A', 'perfect fifth'],
  ['C', 'G#', 'augmented fifth'],
  ['C', 'Ab', 'minor sixth'],
  ['Bb', 'G', 'major sixth'],
  ['C', 'Bbb', 'diminished seventh'],
  ['A', 'G', 'minor seventh'],
  ['C', 'B', 'major seventh'],
  ['C', 'C#', 'augmented unison'],
  ['C', 'Cb', 'diminished octave'],
  ['Cb', 'C', 'augmented unison'],
  ['B#', 'C', 'diminished second'],
  ['Fb', 'B#', 'triply augmented fourth'],
  // A step that would end below its start is counted an octave up.
  ['E#', 'Fb', 'doubly diminished ninth'],
])('from %s up to %s is a %s', (lower, upper, name) => {
  expect(intervalName(note(lower), note(upper))).toBe(name);
});

test.each([
  ['C4', 'C4', 'unison'],
  ['C4', 'C5', 'octave'],
  ['C4', 'C6', 'double octave'],
  ['C3', 'C6', 'three octaves'],
  ['C4', 'D5', 'major ninth'],
  ['G3', 'Bb4', 'minor tenth'],
  ['C4', 'F5', 'perfect eleventh'],
  ['C4', 'G5', 'perfect twelfth'],
  ['C4', 'A5', 'major thirteenth'],
  ['C4', 'Bb5', 'minor fourteenth'],
  ['E2', 'G#4', 'major third and two octaves'],
  ['C4', 'C#5', 'augmented octave'],
  ['C4', 'C#6', 'augmented octave and an octave'],
  ['C4', 'Cb6', 'diminished octave and an octave'],
  ['B#3', 'C4', 'diminished second'],
])('%s and %s sound as a %s', (lower, upper, name) => {
  const [low, high] = [reading(parsePitch(lower)), reading(parsePitch(upper))];
  expect(intervalName(low, high, midiNumber(high) - midiNumber(low))).toBe(name);
});

/** Words for the letters of tonal 6.4.3's short names, such as `3m` and `9dd`. */
const QUALITIES: Readonly<Record<string, string>> = {
  P: 'perfect',
  M: 'major',
  m: 'minor',
  A: 'augmented',
  AA: 'doubly augmented',
  AAA: 'triply augmented',
  AAAA: 'quadruply augmented',
  AAAAA: 'quintuply augmented',
  d: 'diminished',
  dd: 'doubly diminished',
  ddd: 'triply diminished',
  dddd: 'quadruply diminished',
  ddddd: 'quintuply diminished',
};

const ORDINALS = 'unison second third fourth fifth sixth seventh octave ninth tenth eleventh twelfth thirteenth'.split(
  ' ',
);

function wordsOf(short: string): string {
  const [, number = '', quality = ''] = /^(\d+)([A-Za-z]+)$/.exec(short) ?? [];
  const ordinal = [...ORDINALS, 'fourteenth'][Number(number) - 1] ?? short;
  const plain = quality === 'P' && (ordinal === 'unison' || ordinal === 'octave');
  return plain ? ordinal : `${QUALITIES[quality] ?? quality} ${ordinal}`;
}

function notesTo(most: number): readonly Note[] {
  const accidentals = [-2, -1, 0, 1, 2].filter((accidental) => Math.abs(accidental) <= most);
  return LETTERS.flatMap((letter) => accidentals.map((accidental) => ({ letter, accidental })));
}

/**
 * True of tonal's answers that name a step upwards and lead to the upper note: between double accidentals it sometimes gives none,
 * or a step down, or stops counting at four times augmented.
 */
function isUpward(short: string, lower: string, upper: string): boolean {
  return /^\d/.test(short) && NoteOf.transpose(lower, short) === upper;
}

test.each([
  [1, 0],
  [2, 17],
])('every pair of notes with up to %i accidentals has the name that tonal gives it, if any', (most, unnamed) => {
  const told = new Set<string>();
  let without = 0;
  for (const lower of notesTo(most)) {
    for (const upper of notesTo(most)) {
      const short = Interval.distance(printNote(lower), printNote(upper));
      const pair = `${printNote(lower)} ${printNote(upper)}`;
      if (isUpward(short, printNote(lower), printNote(upper)))
        expect(`${pair}: ${intervalName(lower, upper)}`).toBe(`${pair}: ${wordsOf(short)}`);
      else without += 1;
      told.add(intervalName(lower, upper));
    }
  }
  expect(told.size).toBeGreaterThan(25);
  expect(without).toBe(unnamed);
});

test('every pair of pitches within two octaves has the name that tonal gives it', () => {
  const notes = notesTo(1);
  const pairs = notes.flatMap((low) => notes.flatMap((high) => [4, 5].map((octave) => [low, high, octave] as const)));
  let compared = 0;
  for (const [lower, upper, octave] of pairs) {
    const [low, high] = [
      { ...lower, octave: 4 },
      { ...upper, octave },
    ];
    const short = Interval.distance(printPitch(low), printPitch(high));
    if (!isUpward(short, printPitch(low), printPitch(high))) continue;
    const pair = `${printPitch(low)} ${printPitch(high)}`;
    const ours = intervalName(low, high, midiNumber(high) - midiNumber(low));
    expect(`${pair}: ${ours}`).toBe(`${pair}: ${wordsOf(short)}`);
    compared += 1;
  }
  expect(compared).toBeGreaterThan(600);
});
