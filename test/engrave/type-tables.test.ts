import { expect, test } from 'vitest';
import { faceOf, textBox, textWidth } from '../../shared/engrave/text-width.ts';
import { FACE_WIDTHS } from '../../shared/engrave/type/letter-widths.ts';
import { MUSIC_SIGNS } from '../../shared/engrave/type/music-signs.ts';
import { lettersOf, letterWidths, musicSigns } from '../fonts/faces.ts';

// The faces themselves are the source: @fontsource/bravura, source-serif-4 and source-sans-3, read by fontkit.

test('the table of music signs holds the outlines of the face', () => {
  expect(MUSIC_SIGNS).toEqual(musicSigns());
});

test('the table of widths holds the advances of the faces', () => {
  expect(FACE_WIDTHS).toEqual(letterWidths());
});

/** Source: SMuFL 1.4, metadata/glyphnames.json of the specification (W3C Music Notation Community Group, file of 2021-01-30). */
test.each([
  ['timeSig0', 0xe080],
  ['timeSig1', 0xe081],
  ['timeSig2', 0xe082],
  ['timeSig3', 0xe083],
  ['timeSig4', 0xe084],
  ['timeSig5', 0xe085],
  ['timeSig6', 0xe086],
  ['timeSig7', 0xe087],
  ['timeSig8', 0xe088],
  ['timeSig9', 0xe089],
  ['restWhole', 0xe4e3],
  ['restHalf', 0xe4e4],
  ['restQuarter', 0xe4e5],
  ['rest8th', 0xe4e6],
  ['rest16th', 0xe4e7],
  ['rest32nd', 0xe4e8],
  ['flag8thUp', 0xe240],
  ['flag8thDown', 0xe241],
  ['flag16thUp', 0xe242],
  ['flag16thDown', 0xe243],
  ['flag32ndUp', 0xe244],
  ['flag32ndDown', 0xe245],
  ['tuplet3', 0xe883],
  ['tuplet5', 0xe885],
  ['tuplet6', 0xe886],
  ['tupletColon', 0xe88a],
  ['metNoteHalfUp', 0xeca3],
  ['metNoteQuarterUp', 0xeca5],
  ['metNote8thUp', 0xeca7],
  ['metNote16thUp', 0xeca9],
  ['metAugmentationDot', 0xecb7],
  ['repeat1Bar', 0xe500],
  ['accidentalFlat', 0xe260],
  ['accidentalSharp', 0xe262],
  ['accidentalDoubleSharp', 0xe263],
  ['accidentalDoubleFlat', 0xe264],
  ['csymDiminished', 0xe870],
  ['csymHalfDiminished', 0xe871],
  ['csymMajorSeventh', 0xe873],
] as const)('%s stands where the standard has it', (name, code) => {
  expect(MUSIC_SIGNS[name].code).toBe(code);
});

/** Source: SMuFL 1.4, tables of rests, flags and tuplets, whose signs follow one another; values from memory. */
test('signs that the list above leaves out stand in the row of their kind', () => {
  expect(MUSIC_SIGNS.rest64th.code).toBe(MUSIC_SIGNS.rest32nd.code + 1);
  expect(MUSIC_SIGNS.flag64thUp.code).toBe(MUSIC_SIGNS.flag32ndUp.code + 2);
  expect(MUSIC_SIGNS.flag64thDown.code).toBe(MUSIC_SIGNS.flag32ndDown.code + 2);
  for (const digit of [0, 1, 2, 4, 7, 8, 9] as const)
    expect(MUSIC_SIGNS[`tuplet${digit}`].code).toBe(MUSIC_SIGNS.tuplet3.code - 3 + digit);
});

test('a word is as wide as its letters', () => {
  const wide = (letter: string): number => FACE_WIDTHS.serif[0]?.widths[letter.charCodeAt(0) - 0x20] ?? Number.NaN;
  expect(textWidth('lanterns', 'word', 10)).toBeCloseTo([...'lanterns'].reduce((sum, one) => sum + wide(one), 0) / 100);
  expect(textWidth('lanterns', 'word', 10, 'bold')).toBeGreaterThan(textWidth('lanterns', 'word', 10));
});

test('a letter of no face of ours takes room all the same', () => {
  expect(textWidth('\u{1F3B8}', 'word', 10)).toBe(10);
  expect(textWidth('灯', 'word', 10)).toBe(10);
  expect(textWidth('e\u0301', 'word', 10)).toBe(textWidth('e', 'word', 10));
});

// Source: the outlines of the faces. Round letters reach a hundredth or two over flat ones.
test.each(['word', 'name', 'count'] as const)(
  'the room of a text in the role %s is that of the outlines of its letters',
  (role) => {
    const slack = 0.031;
    const short = lettersOf(faceOf(role, 'plain')).flatMap(({ letter, rise, fall }) => {
      const box = textBox({ kind: 'text', x: 0, y: 0, text: letter, size: 1, anchor: 'start', role, ink: 'strong' });
      return rise > -box.y + slack || fall > box.y + box.height + slack ? [letter] : [];
    });
    expect(short).toEqual([]);
  },
);
