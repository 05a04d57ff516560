import { expect, test } from 'vitest';
import { chordReadings, parseChordSymbol, printChordSymbol } from '../../shared/theory/chord-symbol.ts';

/** Slips with the place that is marked and the name without the slip, where there is one. Common practice, no source. */
const SLIPS: readonly (readonly [marked: string, instead?: string])[] = [
  // The letter of the root.
  ['⟦em⟧', 'Em'],
  ['⟦a⟧', 'Am'],
  ['⟦bb⟧', 'Bbm'],
  ['⟦f#m7⟧', 'F#m7'],
  ['⟦g/b⟧', 'G/B'],
  ['⟦am7B5⟧', 'Am7b5'],
  ['⟦Hm⟧', 'Bm'],
  ['⟦Hm7/5-⟧', 'Bm7/5-'],
  ['⟦Cis⟧m7', 'C#m7'],
  ['⟦Des⟧7', 'Db7'],
  ['⟦Es⟧7', 'Eb7'],
  ['⟦As⟧m', 'Abm'],
  ['B⟦flat⟧7', 'Bb7'],
  ['B⟦ flat ⟧m7', 'Bbm7'],
  ['F⟦ sharp ⟧m', 'F#m'],
  ['⟦X⟧'],
  ['⟦what⟧'],
  ['⟦NC⟧'],
  ['⟦N.C.⟧'],
  ['⟦n.c.⟧'],
  ['⟦⟧'],
  // The bass.
  ['G/⟦b⟧', 'G/B'],
  ['G/⟦bb⟧', 'G/Bb'],
  ['G/⟦H⟧', 'G/B'],
  ['C⟦\\⟧E', 'C/E'],
  ['C⟦//⟧E', 'C/E'],
  ['C⟦ on ⟧E', 'C/E'],
  ['C⟦ over ⟧E', 'C/E'],
  ['A/⟦Cis⟧', 'A/C#'],
  ['⟦Fis/Ais⟧', 'F#/A#'],
  ['G7⟦/⟧'],
  ['G⟦/X⟧'],
  ['C⟦/E⟧/G'],
  // Signs and their places.
  ['Cm7⟦B⟧5', 'Cm7b5'],
  ['C7⟦B⟧9', 'C7b9'],
  ['C7⟦flat⟧9', 'C7b9'],
  ['C7⟦ sharp ⟧9', 'C7#9'],
  ['C7(⟦9b⟧)', 'C7(b9)'],
  ['Cm7(⟦5b⟧)', 'Cm7(b5)'],
  ['Cm7⟦-⟧b5', 'Cm7b5'],
  ['C⟦0⟧7', 'Cdim7'],
  ['C⟦j⟧7', 'Cmaj7'],
  ['Cmaj⟦-⟧7', 'Cmaj7'],
  ['C⟦7m⟧', 'Cm7'],
  ['C⟦7min⟧', 'Cmin7'],
  ['C⟦7dim⟧', 'Cdim7'],
  ['C⟦7°⟧', 'C°7'],
  ['C⟦7ø⟧', 'Cø7'],
  ['Cm⟦M⟧', 'CmM7'],
  ['Caug⟦maj⟧', 'Caugmaj7'],
  ['C⟦m5⟧', 'C5'],
  ['C⟦4⟧', 'Csus4'],
  ['C⟦m4⟧', 'Csus4'],
  ['C⟦7/4⟧', 'C7sus4'],
  ['C⟦7(4)⟧', 'C7sus4'],
  ['C⟦7(4/9)⟧', 'C9sus4'],
  ['C⟦4sus⟧', 'Csus4'],
  ['C⟦m2⟧', 'Cm(add9)'],
  ['⟦Cis7B5⟧', 'C#7b5'],
  // Brackets, commas and other company.
  ['C⟦(add9⟧', 'C(add9)'],
  ['C⟦(add9⟧/E', 'C(add9)/E'],
  ['⟦C7)⟧', 'C7'],
  ['C7⟦()⟧', 'C7'],
  ['⟦(C7)⟧', 'C7'],
  ['⟦[Am]⟧', 'Am'],
  ['C7⟦,⟧', 'C7'],
  ['Am⟦.⟧', 'Am'],
  ['C7⟦*⟧', 'C7'],
  ['C7,⟦,⟧b9'],
  // Two meanings: the first is offered, both are told.
  ['⟦C2⟧', 'Csus2'],
  ['⟦Cadd7⟧', 'C7'],
  ['⟦C^⟧', 'C'],
  ['⟦CMm7⟧', 'C7'],
  ['⟦C9/6⟧', 'C6/9'],
  ['⟦C7-⟧', 'Cm7'],
  ['⟦Cm7sus4⟧', 'C7sus4'],
  ['⟦Cmsus2⟧', 'Csus2'],
  ['⟦A b5⟧', 'Ab5'],
  // No right spelling is known.
  ['Cx⟦yz⟧'],
  ['Dm7⟦q⟧'],
  ['Dm7⟦q⟧b5'],
  ['Cm⟦m⟧'],
  ['C⟦(no7)⟧'],
  ['C⟦dimsus4⟧'],
  ['C7⟦7⟧'],
  ['C⟦8⟧'],
  ['C7⟦#⟧b9'],
  ['C9⟦-⟧'],
  ['Cmaj7⟦m⟧'],
  ['C7⟦maj⟧7'],
  ['C⟦ø6⟧'],
  ['C⟦add⟧'],
];

test.each(SLIPS.map(([marked, instead]) => ({ marked, instead })))('$marked', ({ marked, instead }) => {
  const written = marked.replace(/[⟦⟧]/g, '');
  const read = parseChordSymbol(written);
  if (read.ok) throw new Error(`${written} was read as ${printChordSymbol(read.value)}`);
  const { message, span } = read.problem;
  const found = `${written.slice(0, span.start)}⟦${written.slice(span.start, span.end)}⟧${written.slice(span.end)}`;
  expect([found, read.problem.instead]).toEqual([marked, instead]);
  expect(message).not.toMatch(/token|identifier|parse|unexpected|EOF|syntax|undefined/i);
  expect(message).toMatch(/^["“A-Zn].*[.]$/);
  if (instead !== undefined) {
    expect(parseChordSymbol(instead).ok).toBe(true);
    expect(message).toContain(read.problem.code === 'chord.open-bracket' ? 'not closed' : instead);
  }
});

// Players write "C2" for Csus2 and for C(add9): the tool asks instead of guessing. Strength: must.
test.each([
  ['C2', 'Csus2 (C D G)', 'C(add9) (C E G D)'],
  ['Cadd7', 'C7 (C E G Bb)', 'Cmaj7 (C E G B)'],
  ['CMm7', 'C7 (C E G Bb)', 'Cm(maj7) (C Eb G B)'],
  ['C7-', 'Cm7 (C Eb G Bb)', 'C7b5 (C E Gb Bb)'],
  ['Cm7sus4', 'C7sus4 (C F G Bb)', 'Cm7(add11) (C Eb G Bb F)'],
  ['Cmsus', 'Csus4 (C F G)', 'Cm(add11) (C Eb G F)'],
  ['Cm9sus', 'C9sus4 (C F G Bb D)', 'Cm11 (C Eb G Bb D F)'],
  ['C-sus2', 'Csus2 (C D G)', 'Cm(add9) (C Eb G D)'],
  ['Cm7sus2', 'C7sus2 (C D G Bb)', 'Cm9 (C Eb G Bb D)'],
  ['C^', 'C (C E G)', 'Cmaj7 (C E G B)'],
  // The reader chord-symbol 4.0.0 hears the raised fifth; that songbooks mean the added ninth is common practice, no source.
  ['C+9', 'C9#5 (C E G# Bb D)', 'C(add9) (C E G D)'],
  ['C96', 'C6/9 (C E G A D)', 'C13 (C E G Bb D F A)'],
  ['A b5', 'Ab5 (Ab Eb)', 'A(b5) (A C# Eb)'],
])('%s has two readings', (written, first, second) => {
  const read = parseChordSymbol(written);
  if (read.ok) throw new Error(`${written} was guessed`);
  expect(read.problem.code).toBe('chord.two-readings');
  expect(read.problem.message).toContain(`${first} and ${second}`);
  expect(chordReadings(written).map((one) => one.text)).toEqual([first, second].map((said) => said.replace(/ .*/, '')));
});

test('C-5 and Csus9 have one meaning', () => {
  // Source: the reader chord-symbol 4.0.0 hears the same; see the comparison of readers.
  expect(chordReadings('C-5').map((one) => one.text)).toEqual(['C-5']);
  expect(chordReadings('C-5').map((one) => printChordSymbol(one))).toEqual(['C(b5)']);
  expect(chordReadings('Csus9').map((one) => printChordSymbol(one))).toEqual(['C9sus4']);
});

test('readings keep the bass, and a plain name has one', () => {
  expect(chordReadings('Bb2/F').map((one) => one.text)).toEqual(['Bbsus2/F', 'Bb(add9)/F']);
  expect(chordReadings('Csus2').map((one) => one.text)).toEqual(['Csus2']);
  expect(chordReadings('what')).toEqual([]);
  expect(chordReadings('C2/X')).toEqual([]);
});

test('no chord is no chord name', () => {
  for (const text of ['NC', 'N.C.', 'N.C', 'n.c.']) {
    const read = parseChordSymbol(text);
    expect(read.ok ? '' : read.problem.message).toContain('no chord is played');
  }
});
