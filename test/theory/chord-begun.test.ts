import { expect, test } from 'vitest';
import { isBegunChordName } from '../../shared/theory/chord-begun.ts';
import { CHORD_KINDS } from '../../shared/theory/chord-kinds.ts';
import { parseChordSymbol } from '../../shared/theory/chord-symbol.ts';

const FURTHER = [
  'C7b5',
  'Cm7(b5)',
  'C7(#5,#9)',
  'D(add9)',
  'C13(no5)',
  'Cminor',
  'C/B',
  'F#m7b5/Bb',
  'C♯m7♭5',
  'C7#9',
  'C-7',
  'C+',
];

test.each([...CHORD_KINDS.map(({ suffix }) => `C${suffix}`), ...FURTHER])('%s is in order at every letter', (name) => {
  expect(parseChordSymbol(name).ok).toBe(true);
  for (let typed = 1; typed < name.length; typed += 1) {
    const begun = name.slice(0, typed);
    expect([begun, parseChordSymbol(begun).ok || isBegunChordName(begun)]).toEqual([begun, true]);
  }
});

test.each(['', 'Cq', 'Csuq', 'C)', 'G//', 'G/H', 'roll', 'H7', 'em', 'C', 'C(add9)', 'Cm7b5', 'C(q', '(C', 'NC'])(
  '%j is not the beginning of a chord name, or is a whole one',
  (text) => expect(isBegunChordName(text)).toBe(false),
);
