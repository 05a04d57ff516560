import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CHORD_STYLES } from '../../shared/theory/chord-style.ts';
import { chordSymbol, chordTones, parseChordSymbol, printChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { pitchClass } from '../../shared/theory/note.ts';
import { noteArbitrary, symbolArbitrary } from './arbitrary-symbol.ts';
import { chord, SEED } from './reading.ts';

const SIGNS = { ...CHORD_STYLES.plain, accidentals: 'signs' } as const;

test('signs are a style of printing', () => {
  expect(printChordSymbol(chord('Bbm7b5'), SIGNS)).toBe('B♭m7♭5');
  expect(printChordSymbol(chord('F#7#9/C#'), SIGNS)).toBe('F♯7♯9/C♯');
  expect(printChordSymbol(chord('B♭(add#11)'))).toBe('Bb(add#11)');
});

test('a chord on another root has the same tones, moved', () => {
  fc.assert(
    fc.property(symbolArbitrary, noteArbitrary, (symbol, root) => {
      const moved = chordSymbol(root, symbol);
      const sounds = (of: typeof symbol) =>
        chordTones(of).map((tone) => (pitchClass(tone.note) - pitchClass(of.root) + 12) % 12);
      expect(sounds(moved)).toEqual(sounds(symbol));
    }),
    { seed: SEED, numRuns: 500 },
  );
});

test('reading never fails by exception, and a fault lies inside the word', () => {
  const pieces = fc.constantFrom(
    'C',
    'F#',
    'b',
    'm',
    'maj',
    '7',
    '9',
    'sus',
    'add',
    '(',
    ')',
    '/',
    '2',
    'no',
    '-',
    '+',
    '△',
    ' ',
    '♭',
    'x',
  );
  const text = fc.oneof(
    fc.string(),
    fc.array(pieces, { maxLength: 8 }).map((parts) => parts.join('')),
  );
  fc.assert(
    fc.property(text, (written) => {
      const read = parseChordSymbol(written);
      if (read.ok) {
        expect(printChordSymbol(chord(printChordSymbol(read.value)))).toBe(printChordSymbol(read.value));
      } else {
        const { start, end } = read.problem.span;
        expect(start >= 0 && start <= end && end <= written.length).toBe(true);
      }
    }),
    { seed: SEED, numRuns: 5000 },
  );
});
