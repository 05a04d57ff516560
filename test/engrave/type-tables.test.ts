import { expect, test } from 'vitest';
import { textWidth } from '../../shared/engrave/text-width.ts';
import { FACE_WIDTHS } from '../../shared/engrave/type/letter-widths.ts';
import { MUSIC_SIGNS } from '../../shared/engrave/type/music-signs.ts';
import { letterWidths, musicSigns } from '../fonts/faces.ts';

// The faces themselves are the source: @fontsource/bravura, source-serif-4 and source-sans-3, read by fontkit.

test('the table of music signs holds the outlines of the face', () => {
  expect(MUSIC_SIGNS).toEqual(musicSigns());
});

test('the table of widths holds the advances of the faces', () => {
  expect(FACE_WIDTHS).toEqual(letterWidths());
});

/** Source: SMuFL 1.4, glyphnames.json of the specification. */
test.each([
  ['timeSig0', 0xe080],
  ['timeSig9', 0xe089],
  ['restWhole', 0xe4e3],
  ['restQuarter', 0xe4e5],
  ['rest8th', 0xe4e6],
  ['flag8thUp', 0xe240],
  ['flag8thDown', 0xe241],
  ['flag16thUp', 0xe242],
  ['tuplet3', 0xe883],
  ['accidentalFlat', 0xe260],
  ['accidentalSharp', 0xe262],
] as const)('%s stands where the standard has it', (name, code) => {
  expect(MUSIC_SIGNS[name].code).toBe(code);
});

test('a word is as wide as its letters', () => {
  const { ranges } = FACE_WIDTHS.serif;
  const wide = (letter: string): number => ranges[0]?.widths[letter.charCodeAt(0) - 0x20] ?? Number.NaN;
  expect(textWidth('lanterns', 'word', 10)).toBeCloseTo([...'lanterns'].reduce((sum, one) => sum + wide(one), 0) / 100);
  expect(textWidth('lanterns', 'word', 10, 'bold')).toBeGreaterThan(textWidth('lanterns', 'word', 10));
});

test('a letter of no face of ours takes room all the same', () => {
  expect(textWidth('\u{1F3B8}', 'word', 10)).toBe(10);
  expect(textWidth('灯', 'word', 10)).toBe(10);
  expect(textWidth('e\u0301', 'word', 10)).toBe(textWidth('e', 'word', 10));
});
