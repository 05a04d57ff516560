import { expect, test } from 'vitest';
import { type ChordSymbol, parseChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { tellLoss, tellLosses } from '../../shared/voicing/family/loss.ts';

// What a chord lacks follows from which tones its name promises: the tones of each name are those of any chord table (Am7: A C E G;
// Cmaj7: C E G B; Bm7: B D F# A; Asus2: A B E).
test.each([
  // G C E B for Am7 has its C: what is missing is the A of Am7.
  ['Am7', 'Cmaj7', [{ degree: 1, alter: 0 }], 'for Am7 its root A is missing', 'without the root A of Am7'],
  [
    'Bm',
    'Asus2',
    [
      { degree: 3, alter: -1 },
      { degree: 5, alter: 0 },
    ],
    'for Bm its third D and fifth F# are missing',
    'without the third D and fifth F# of Bm',
  ],
  ['Bm', 'Bm7', [{ degree: 5, alter: 0 }], 'Bm7 has no fifth', 'without its fifth'],
  ['C9', 'C9', [{ degree: 1, alter: 0 }], 'C9 has no root', 'without its root'],
  // The plain name of a seventh chord whose seventh does not sound promises none.
  ['Bm7', 'Bm', [{ degree: 7, alter: -1 }], 'for Bm7 its seventh A is missing', 'without the seventh A of Bm7'],
  // A second stands in the third's place: the name says so.
  ['A', 'Asus2', [{ degree: 3, alter: 0 }], undefined, undefined],
  ['A', 'A5', [{ degree: 3, alter: 0 }], undefined, undefined],
  ['A', 'no chord', [{ degree: 3, alter: 0 }], 'for A its third C# is missing', 'without the third C# of A'],
  ['A', 'A', [], undefined, undefined],
])('%s as %s', (chord, as, omits, onCard, inShell) => {
  const one = { chord: symbol(chord), as, omits };
  expect(tellLosses([one])).toEqual(onCard === undefined ? [] : [onCard]);
  expect(tellLoss(one)).toBe(inShell);
});

test('chords that lack the same are told together', () => {
  const omits = [{ degree: 5, alter: 0 }];
  const chords = [
    { chord: symbol('Bm'), as: 'Bm7', omits },
    { chord: symbol('C'), as: 'Cmaj7', omits: [] },
    { chord: symbol('Em'), as: 'Em7', omits },
  ];
  expect(tellLosses(chords)).toEqual(['Bm7 and Em7 have no fifth']);
});

function symbol(text: string): ChordSymbol {
  const read = parseChordSymbol(text);
  if (!read.ok) throw new Error(read.problem.message);
  return read.value;
}
