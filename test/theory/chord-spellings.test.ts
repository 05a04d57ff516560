import { describe, expect, test } from 'vitest';
import { printChordSymbol, sameChord } from '../../shared/theory/chord-symbol.ts';
import { chord, notesOf } from './reading.ts';
import { SPELLINGS } from './spellings.ts';

const WRITTEN = SPELLINGS.flatMap(([canonical, tones, written]) =>
  written.map((text) => [text, canonical, tones] as const),
);

test('the table holds every spelling once', () => {
  expect(new Set(WRITTEN.map(([text]) => text)).size).toBe(WRITTEN.length);
  expect(WRITTEN.length).toBeGreaterThanOrEqual(900);
});

describe.each(SPELLINGS)('%s, %s', (canonical, tones, written) => {
  test.each(written)('%s', (text) => {
    const read = chord(text);
    expect(printChordSymbol(read)).toBe(canonical);
    expect(notesOf(text)).toBe(tones);
    expect(notesOf(canonical)).toBe(tones);
    expect(sameChord(read, chord(canonical))).toBe(true);
    expect(read.text).toBe(text);
  });
});

test('a suffix means the same on every root', () => {
  for (const [text, canonical] of WRITTEN) {
    // Where a blank or a letter-sized sign follows the root, the root's own accidental would change what is written.
    if (!/^C(?![\s♮b#♭♯x𝄪𝄫])/u.test(text) || text.includes('/C')) continue;
    for (const root of ['Ab', 'F#', 'Bbb', 'G##']) {
      const moved = printChordSymbol({ ...chord(text), root: chord(root).root });
      expect([text, printChordSymbol(chord(root + text.slice(1)))]).toEqual([text, moved]);
      expect(moved).toBe(root + canonical.slice(1));
    }
  }
});
