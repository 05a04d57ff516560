import { expect, test } from 'vitest';
import { readerDisagreements, readerFigures } from './reader-comparison.ts';
import { REASONS } from './reader-reasons.ts';

/** Two readers that know nothing of each other or of us: `tonal` 6.4.3 and `chord-symbol` 4.0.0. */
test('outside readers hear the notes that we hear, save where a reason is told', () => {
  // Both ways: a difference without a reason fails, and so does a reason that is none any more.
  const told = REASONS.flatMap(([reader, , spellings]) => spellings.map((spelling) => `${reader}: ${spelling}`));
  const found = readerDisagreements();
  expect(found.filter(({ reason }) => reason === undefined)).toEqual([]);
  expect(found.map(({ reader, spelling }) => `${reader}: ${spelling}`).sort()).toEqual(told.sort());
});

test('the comparison is wide enough to mean something', () => {
  for (const { spellings, read, agreed } of readerFigures()) {
    expect(spellings).toBeGreaterThan(2000);
    expect(read).toBeGreaterThan(400);
    expect(agreed / read).toBeGreaterThan(0.8);
  }
});
