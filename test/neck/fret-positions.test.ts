import { expect, test } from 'vitest';
import { fretDistanceMm, fretPositionMm } from '../../shared/neck/fret-positions.ts';
import { MM_PER_INCH } from '../../shared/neck/instrument-table.ts';

// Source: J. Colter, builders' forum, 8 Apr 2011: soprano ukulele of 347 mm. Printed a hundredth short of the formula here and there.
test.each([
  [1, 19.47],
  [7, 115.39],
  [12, 173.49],
])('soprano of 347 mm: fret %i at %f mm', (fret, mm) => {
  expect(Math.abs(fretPositionMm(347, fret) - mm)).toBeLessThanOrEqual(0.03);
});

// Source: The First Fret Co., "Fret position" table, 25.5 in, frets 1 to 22.
const FIRST_FRET_INCHES = [
  1.43, 2.78, 4.06, 5.26, 6.4, 7.47, 8.48, 9.44, 10.34, 11.19, 11.99, 12.75, 13.47, 14.14, 14.78, 15.38, 15.95, 16.48,
  16.99, 17.47, 17.92, 18.34,
];
test('guitar of 25.5 in, every fret', () => {
  const worst = FIRST_FRET_INCHES.map((inches, index) => Math.abs(fretPositionMm(25.5, index + 1) - inches));
  // The table is rounded to hundredths of an inch.
  expect(Math.max(...worst)).toBeLessThan(0.0051);
});

// Source: "Guitar bits 'n' bobs", stuphi.co.uk: 25 in, fret to bridge, frets 1 to 12, in mm.
const FRET_TO_BRIDGE_MM = [
  599.36, 565.721, 533.969, 504.0, 475.712, 449.013, 423.812, 400.025, 377.573, 356.382, 336.38, 317.5,
];
test('guitar of 25 in, fret to bridge', () => {
  const scaleMm = 25 * MM_PER_INCH;
  const computed = FRET_TO_BRIDGE_MM.map((_, index) => scaleMm - fretPositionMm(scaleMm, index + 1));
  for (const [index, mm] of FRET_TO_BRIDGE_MM.entries())
    expect(Math.abs((computed[index] ?? 0) - mm)).toBeLessThan(0.001);
});

test('each fret takes 1/17.817 of the string that is left (Georgia Luthier Supply); the octave halves it', () => {
  for (let fret = 0; fret < 24; fret += 1) {
    const left = 432 - fretPositionMm(432, fret);
    expect(left / fretDistanceMm(432, fret, fret + 1)).toBeCloseTo(17.817154, 5);
  }
  expect(fretPositionMm(432, 12)).toBeCloseTo(216, 9);
  expect(fretPositionMm(432, 24)).toBeCloseTo(324, 9);
});

// A stretch from fret 2 to 5 on each size, worked out by players for their own scale lengths. Strength: must for the lengths.
test.each([
  ['soprano', 345, 49],
  ['concert', 380, 54],
  ['tenor', 430, 61],
  ['baritone', 485, 69],
])('%s of %i mm: frets 2 to 5 are about %i mm', (_size, scaleMm, mm) => {
  expect(Math.round(fretDistanceMm(scaleMm, 2, 5))).toBe(mm);
});
