import { describe, expect, test } from 'vitest';
import { kindOf } from '../../../shared/export/musicxml/harmony-kind.ts';
import { CHORD_KINDS } from '../../../shared/theory/chord-kinds.ts';
import { type ChordSymbol, chordTones, parseChordSymbol } from '../../../shared/theory/chord-symbol.ts';
import { pitchClass } from '../../../shared/theory/note.ts';

/**
 * Semitones above the root by `kind`. Source: MusicXML 4.0, musicxml.xsd, documentation of `kind-value`, which tells each kind in
 * thirds, fifths and so on.
 */
const KINDS: Readonly<Record<string, Readonly<Record<number, number>>>> = {
  major: { 1: 0, 3: 4, 5: 7 },
  minor: { 1: 0, 3: 3, 5: 7 },
  augmented: { 1: 0, 3: 4, 5: 8 },
  diminished: { 1: 0, 3: 3, 5: 6 },
  dominant: { 1: 0, 3: 4, 5: 7, 7: 10 },
  'major-seventh': { 1: 0, 3: 4, 5: 7, 7: 11 },
  'minor-seventh': { 1: 0, 3: 3, 5: 7, 7: 10 },
  'diminished-seventh': { 1: 0, 3: 3, 5: 6, 7: 9 },
  'augmented-seventh': { 1: 0, 3: 4, 5: 8, 7: 10 },
  'half-diminished': { 1: 0, 3: 3, 5: 6, 7: 10 },
  'major-minor': { 1: 0, 3: 3, 5: 7, 7: 11 },
  'major-sixth': { 1: 0, 3: 4, 5: 7, 6: 9 },
  'minor-sixth': { 1: 0, 3: 3, 5: 7, 6: 9 },
  'dominant-ninth': { 1: 0, 3: 4, 5: 7, 7: 10, 9: 14 },
  'major-ninth': { 1: 0, 3: 4, 5: 7, 7: 11, 9: 14 },
  'minor-ninth': { 1: 0, 3: 3, 5: 7, 7: 10, 9: 14 },
  'dominant-11th': { 1: 0, 3: 4, 5: 7, 7: 10, 9: 14, 11: 17 },
  'major-11th': { 1: 0, 3: 4, 5: 7, 7: 11, 9: 14, 11: 17 },
  'minor-11th': { 1: 0, 3: 3, 5: 7, 7: 10, 9: 14, 11: 17 },
  'dominant-13th': { 1: 0, 3: 4, 5: 7, 7: 10, 9: 14, 11: 17, 13: 21 },
  'major-13th': { 1: 0, 3: 4, 5: 7, 7: 11, 9: 14, 11: 17, 13: 21 },
  'minor-13th': { 1: 0, 3: 3, 5: 7, 7: 10, 9: 14, 11: 17, 13: 21 },
  'suspended-second': { 1: 0, 2: 2, 5: 7 },
  'suspended-fourth': { 1: 0, 4: 5, 5: 7 },
  power: { 1: 0, 5: 7 },
};

/** An added degree is counted from a dominant chord: major and perfect intervals but for a minor seventh (documentation of `degree-alter`). */
const DOMINANT: Readonly<Record<number, number>> = { 1: 0, 2: 2, 3: 4, 4: 5, 5: 7, 6: 9, 7: 10, 9: 14, 11: 17, 13: 21 };

/** What a reader of the standard hears. */
function heard(symbol: ChordSymbol): readonly number[] {
  const { kind, degrees } = kindOf(symbol);
  const tones = Object.entries(KINDS[kind] ?? {}).map(([degree, semitones]) => ({ degree: Number(degree), semitones }));
  expect(tones.length, kind).toBeGreaterThan(1);
  for (const { value, alter, type } of degrees) {
    const own = tones.findIndex(({ degree }) => degree === value);
    if (type === 'add') tones.push({ degree: value, semitones: (DOMINANT[value] ?? Number.NaN) + alter });
    else if (own < 0) throw new Error(`${symbol.text} changes a degree ${value} that ${kind} has not.`);
    else if (type === 'subtract') tones.splice(own, 1);
    else tones[own] = { degree: value, semitones: (tones[own]?.semitones ?? 0) + alter };
  }
  return [...new Set(tones.map(({ semitones }) => (semitones + pitchClass(symbol.root)) % 12))].sort((a, b) => a - b);
}

const NAMES = [
  ...CHORD_KINDS.map(({ suffix }) => `C${suffix}`),
  ...[
    'F#m7b5',
    'D(add9)',
    'C7b9',
    'C7#9b5',
    'C13(no5)',
    'G/B',
    'Bb(add#11)',
    'Am(maj9)',
    'C7#11',
    'C9#5',
    'Cmaj7#11',
    'C(no3)',
    'Em(add11)',
    'C13#11',
  ],
];

describe('chord symbols as kinds and degrees', () => {
  test.each(NAMES)('%s is heard as it is', (name) => {
    const symbol = parseChordSymbol(name);
    if (!symbol.ok) throw new Error(symbol.problem.message);
    const own = [...new Set(chordTones(symbol.value).map(({ note }) => pitchClass(note)))].sort((a, b) => a - b);
    expect(heard(symbol.value)).toEqual(own);
  });
});
