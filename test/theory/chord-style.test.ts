import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ChordStyle, ChordStyleName } from '../../shared/theory/chord-style.ts';
import { CHORD_STYLES } from '../../shared/theory/chord-style.ts';
import { chordTones, printChordSymbol, sameChord } from '../../shared/theory/chord-symbol.ts';
import { printNote } from '../../shared/theory/note.ts';
import { symbolArbitrary } from './arbitrary-symbol.ts';
import { chord, SEED } from './reading.ts';

const NAMES: readonly ChordStyleName[] = ['plain', 'short', 'words', 'symbols', 'capitals'];

/** One chord in every style, in the order of the names above. Source: common practice, no source. */
const WRITTEN: readonly (readonly [string, string, string, string, string])[] = [
  ['Cm', 'Cm', 'Cmin', 'C-', 'CMI'],
  ['Cm7', 'Cm7', 'Cmin7', 'C-7', 'CMI7'],
  ['Cmaj7', 'CM7', 'Cmaj7', 'C△7', 'CMA7'],
  ['Cmaj9#11', 'CM9#11', 'Cmaj9#11', 'C△9♯11', 'CMA9(#11)'],
  ['Cm(maj7)', 'Cm(M7)', 'Cmin(maj7)', 'C-△7', 'CMI(MA7)'],
  ['Cdim', 'Cdim', 'Cdim', 'C°', 'CMI(b5)'],
  ['Cdim7', 'Cdim7', 'Cdim7', 'C°7', 'C°7'],
  ['Cdim(maj7)', 'Cdim(M7)', 'Cdim(maj7)', 'C°△7', 'CMI(MA7)(b5)'],
  ['Cm7b5', 'Cm7b5', 'Cmin7b5', 'Cø7', 'CMI7(b5)'],
  ['Cm9b5', 'Cm9b5', 'Cmin9b5', 'Cø9', 'CMI9(b5)'],
  ['Caug', 'C+', 'Caug', 'C+', 'C+'],
  ['Caug7', 'C+7', 'Caug7', 'C+7', 'C+7'],
  ['C7b9#11', 'C7b9#11', 'C7b9#11', 'C7♭9♯11', 'C7(b9,#11)'],
  ['Bb6/9', 'Bb6/9', 'Bb6/9', 'B♭6/9', 'Bb6/9'],
  ['F#m6/9', 'F#m6/9', 'F#min6/9', 'F♯-6/9', 'F#MI6/9'],
  ['Am(add9)/C#', 'Am(add9)/C#', 'Amin(add9)/C#', 'A-(add9)/C♯', 'AMI(add9)/C#'],
  ['C13(no11)', 'C13(no11)', 'C13(no11)', 'C13(no11)', 'C13(no11)'],
  ['C7sus4(addmaj7)', 'C7sus4(addM7)', 'C7sus4(addmaj7)', 'C7sus4(add△7)', 'C7sus4(addMA7)'],
  ['C(b5)', 'C(b5)', 'C(b5)', 'C(♭5)', 'C(b5)'],
];

test.each(WRITTEN)('%s, %s, %s, %s, %s', (...written) => {
  expect(NAMES.map((name) => printChordSymbol(chord(written[0]), CHORD_STYLES[name]))).toEqual(written);
});

test('the styles with a name are those of the table', () => {
  expect(Object.keys(CHORD_STYLES)).toEqual(NAMES);
});

/** Every combination of what a style can choose, so that a user's own would read back too. */
const styleArbitrary: fc.Arbitrary<ChordStyle> = fc.record({
  accidentals: fc.constantFrom('letters', 'signs'),
  minor: fc.constantFrom('m', 'min', '-', 'MI'),
  major: fc.constantFrom('maj', 'M', '△', 'MA'),
  diminished: fc.constantFrom('dim', '°', 'minor-flat-five'),
  halfDiminished: fc.constantFrom('minor-flat-five', 'ø'),
  augmented: fc.constantFrom('aug', '+'),
  alterations: fc.constantFrom('bare', 'bracketed'),
});

describe('what is printed reads back as the same chord', () => {
  test.each(NAMES)('in the style %s', (name) => {
    const style = CHORD_STYLES[name];
    fc.assert(
      fc.property(symbolArbitrary, (symbol) => {
        const printed = printChordSymbol(symbol, style);
        const again = chord(printed);
        expect([printed, sameChord(again, symbol)]).toEqual([printed, true]);
        expect(printChordSymbol(again, style)).toBe(printed);
        expect(printChordSymbol(again)).toBe(symbol.text);
        const tones = (of: typeof symbol) => chordTones(of).map((tone) => printNote(tone.note));
        expect(tones(again)).toEqual(tones(symbol));
      }),
      { seed: SEED, numRuns: 2000 },
    );
  });

  test('in any style', () => {
    fc.assert(
      fc.property(symbolArbitrary, styleArbitrary, (symbol, style) => {
        const printed = printChordSymbol(symbol, style);
        expect([printed, sameChord(chord(printed), symbol)]).toEqual([printed, true]);
      }),
      { seed: SEED, numRuns: 4000 },
    );
  });
});
