import { expect, test } from 'vitest';
import { soundingMidi } from '../../shared/neck/pitches.ts';
import { fewNotesOf, tellFewNotes } from '../../shared/voicing/few-notes.ts';
import { HIGH_G, LOW_G, shape } from '../neck/playing.ts';
import { key } from '../theory/reading.ts';

function told(frets: string, on = HIGH_G, inKey?: string): string | undefined {
  const few = fewNotesOf(soundingMidi(on, shape(frets)), inKey === undefined ? undefined : key(inKey));
  return few && tellFewNotes(few);
}

// Intervals by arithmetic from gCEA; the words are those of any theory primer.
test.each([
  ['x-x-x-x', 'no string sounds'],
  ['x-3-x-x', 'the note Eb'],
  ['0-x-3-x', 'the note G'],
  ['x-0-0-x', 'a major third, C and E'],
  ['x-0-0-3', 'a major third, C and E'],
  ['0-0-x-x', 'a perfect fifth, C and G'],
  ['0-x-x-0', 'a major second, G and A'],
  ['x-0-x-0', 'a major sixth, C and A'],
  ['x-0-2-x', 'an augmented fourth, C and F#'],
  ['x-1-1-x', 'a major third, Db and F'],
  ['x-2-0-x', 'a major second, D and E'],
  ['x-1-0-x', 'a minor third, C# and E'],
  ['x-x-0-8', 'a minor ninth, E and F'],
  ['0-0-0-x', undefined],
])('%s: %s', (frets, expected) => expect(told(frets)).toBe(expected));

test('with a low fourth string the fifth is a fourth', () => {
  expect(told('0-0-x-x', LOW_G)).toBe('a perfect fourth, G and C');
});

test('the key spells them', () => {
  expect(told('x-0-2-x', HIGH_G, 'Db')).toBe('a diminished fifth, C and Gb');
  expect(told('x-3-x-x', HIGH_G, 'E')).toBe('the note D#');
});
