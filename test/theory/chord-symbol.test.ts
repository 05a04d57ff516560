import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CHORD_KINDS } from '../../shared/theory/chord-kinds.ts';
import {
  chordReadings,
  chordSymbol,
  chordTones,
  parseChordSymbol,
  printChordSymbol,
  sameChord,
} from '../../shared/theory/chord-symbol.ts';
import type { Letter } from '../../shared/theory/note.ts';
import { LETTERS, pitchClass } from '../../shared/theory/note.ts';
import { chord, notesOf, SEED } from './reading.ts';

/** Spellings that mean one chord. Source: common practice, no source; tones by arithmetic. */
const SPELLINGS: readonly (readonly [canonical: string, notes: string, written: readonly string[]])[] = [
  ['Em', 'E G B', ['Em', 'E-', 'Emin', 'Emi', 'EMIN', 'E−', 'Eminor']],
  ['C', 'C E G', ['C', 'Cmaj', 'CM', 'Cmajor']],
  ['Cmaj7', 'C E G B', ['Cmaj7', 'CM7', 'CMaj7', 'Cma7', 'CMA7', 'C△7', 'CΔ7', 'C△', 'C(maj7)', 'C7M']],
  ['Cdim', 'C Eb Gb', ['Cdim', 'C°', 'Co', 'Cm(b5)']],
  ['Cdim7', 'C Eb Gb Bbb', ['Cdim7', 'C°7', 'Co7']],
  ['F#m7b5', 'F# A C E', ['F#m7b5', 'F♯ø', 'F#ø7', 'F#-7b5', 'F#m7(b5)', 'F#m7-5', 'F#min7♭5']],
  ['Eaug', 'E G# B#', ['E+', 'Eaug', 'E(#5)', 'E+5', 'E(♯5)']],
  ['Caug7', 'C E G# Bb', ['Caug7', 'C+7', 'C7+', 'C7#5', 'C7+5', 'C7(#5)']],
  ['Asus4', 'A D E', ['Asus', 'Asus4', 'A(sus4)']],
  ['A7sus4', 'A D E G', ['A7sus4', 'A7sus', 'Asus7', 'A7(sus4)']],
  ['D(add9)', 'D F# A E', ['Dadd9', 'D(add9)', 'Dadd2', 'D(9)', 'DADD9']],
  ['Dm(add9)', 'D F A E', ['Dmadd9', 'Dm(add9)', 'Dm(add2)']],
  ['G6/9', 'G B D E A', ['G6/9', 'G69', 'G6(9)', 'G6add9']],
  ['C7b9', 'C E G Bb Db', ['C7b9', 'C7(b9)', 'C7♭9', 'C7-9', 'C7(−9)']],
  ['Caug7b9', 'C E G# Bb Db', ['C7#5b9', 'C7b9#5', 'C7(b9,#5)', 'C7(#5 b9)', 'C+7b9']],
  ['Am(maj7)', 'A C E G#', ['Am(maj7)', 'AmM7', 'Am/maj7', 'AmMaj7', 'A-△7', 'A-△']],
  ['C9', 'C E G Bb D', ['C9', 'C7/9', 'C7add9', 'C7(9)']],
  ['C(no5)', 'C E', ['C(no5)', 'Cno5', 'Comit5', 'C(omit5)', 'C(no5th)']],
  ['C5', 'C G', ['C5', 'Cno3', 'C(omit3)']],
  ['G/B', 'G B D', ['G/B', 'Gmaj/B']],
  ['Bb', 'Bb D F', ['Bb', 'B♭', 'BbM']],
  ['C7alt', 'C E Gb G# Bb Db D#', ['C7alt', 'Calt']],
];

test.each(SPELLINGS)('%s', (canonical, notes, written) => {
  for (const text of written) {
    expect(`${text}: ${printChordSymbol(chord(text))}`).toBe(`${text}: ${canonical}`);
    expect(notesOf(text)).toBe(notes);
    expect(sameChord(chord(text), chord(canonical))).toBe(true);
  }
});

test('signs are a style of printing', () => {
  expect(printChordSymbol(chord('Bbm7b5'), 'signs')).toBe('B♭m7♭5');
  expect(printChordSymbol(chord('F#7#9/C#'), 'signs')).toBe('F♯7♯9/C♯');
  expect(printChordSymbol(chord('B♭(add#11)'))).toBe('Bb(add#11)');
});

test.each([
  ['em', 'Em'],
  ['a', 'Am'],
  ['f#m7', 'F#m7'],
  ['C4', 'Csus4'],
  ['C(add9', 'C(add9)'],
  ['Hm', 'Bm'],
])('%s is answered with %s', (written, instead) => {
  const read = parseChordSymbol(written);
  expect(read.ok ? undefined : read.problem.instead).toBe(instead);
  expect(parseChordSymbol(instead).ok).toBe(true);
});

test.each([
  ['Cxyz', 1, 4],
  ['Dm7q', 3, 4],
  ['G/H', 1, 3],
  ['G7/', 2, 3],
  ['Cmm', 2, 3],
])('in %s the slip is marked', (written, start, end) => {
  const read = parseChordSymbol(written);
  if (read.ok) throw new Error(`${written} was read as ${printChordSymbol(read.value)}`);
  // "Cxyz" begins with a double sharp, so the slip stands behind the x.
  expect(read.problem.span).toEqual({ start: written === 'Cxyz' ? 2 : start, end });
  expect(read.problem.message).not.toMatch(/token|identifier|parse|unexpected|EOF|syntax/i);
});

// Players write "C2" for Csus2 and for C(add9): the tool asks instead of guessing. Strength: must.
test('C2 has two readings', () => {
  const read = parseChordSymbol('C2');
  if (read.ok) throw new Error('C2 was guessed');
  expect(read.problem.code).toBe('chord.two-readings');
  expect(read.problem.message).toContain('Csus2 (C D G)');
  expect(read.problem.message).toContain('C(add9) (C E G D)');
  expect(chordReadings('C2').map((one) => one.text)).toEqual(['Csus2', 'C(add9)']);
  expect(chordReadings('Bb2/F').map((one) => one.text)).toEqual(['Bbsus2/F', 'Bb(add9)/F']);
  expect(chordReadings('Csus2').map((one) => one.text)).toEqual(['Csus2']);
  expect(chordReadings('what')).toEqual([]);
});

test('no chord is no chord name', () => {
  expect(parseChordSymbol('NC').ok).toBe(false);
  expect(parseChordSymbol('N.C.').ok).toBe(false);
});

const noteArbitrary = fc.record({
  letter: fc.constantFrom<Letter>(...LETTERS),
  accidental: fc.integer({ min: -1, max: 1 }),
});
const roleArbitrary = fc.record({
  degree: fc.constantFrom(5, 9, 11, 13),
  alter: fc.integer({ min: -1, max: 1 }),
});
const symbolArbitrary = fc
  .record({
    root: noteArbitrary,
    kind: fc.constantFrom(...CHORD_KINDS.map((facts) => facts.kind)),
    roles: fc.array(roleArbitrary, { maxLength: 3 }),
    bass: fc.option(noteArbitrary, { nil: undefined }),
  })
  .map(({ root, kind, roles, bass }) => {
    const alterations = roles.filter((role) => role.alter !== 0);
    const additions = roles.filter((role) => role.alter === 0 && role.degree !== 5);
    return chordSymbol(root, { kind, alterations, additions }, bass);
  });

test('what is printed reads back as the same chord', () => {
  fc.assert(
    fc.property(symbolArbitrary, (symbol) => {
      const again = chord(symbol.text);
      expect(sameChord(again, symbol)).toBe(true);
      expect(printChordSymbol(again)).toBe(symbol.text);
    }),
    { seed: SEED, numRuns: 4000 },
  );
});

test('the printed signs read back as the same chord too', () => {
  fc.assert(
    fc.property(symbolArbitrary, (symbol) => {
      expect(sameChord(chord(printChordSymbol(symbol, 'signs')), symbol)).toBe(true);
    }),
    { seed: SEED, numRuns: 500 },
  );
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
