import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { FingerFaultCode } from '../../shared/hand/fingering.ts';
import { handReport } from '../report/hand.ts';
import { FIGURES } from './fingering-figures.ts';

// Source: the open data set @tombatossals/chords-db 0.5.1 (MIT): every shape of it carries fingers.

test.each(FIGURES)('$name: the set has the shapes and faults it is known for', ({ name, shapes, impossible }) => {
  expect(shapes).toBe(name === 'ukulele' ? 2114 : 2069);
  // Crossed or missing fingers, counted apart from our code: 2 of the ukulele and 20 of the guitar shapes. The guitar's other eleven
  // lay a finger across a string that is open or stopped lower, or that it is not long enough for.
  const spoiling: readonly FingerFaultCode[] = ['fingers.barre', 'fingers.too-wide'];
  const others = impossible.filter(({ codes }) => codes.every((code) => spoiling.includes(code)));
  expect(impossible.length - others.length).toBe(name === 'ukulele' ? 2 : 20);
  expect(others.length).toBe(name === 'ukulele' ? 0 : 11);
});

test.each(FIGURES)(
  '$name: for three shapes of four the set has our first fingering, for nine of ten one of our three',
  (figures) => {
    expect(figures.first / figures.shapes).toBeGreaterThanOrEqual(0.75);
    expect(figures.amongThree / figures.shapes).toBeGreaterThanOrEqual(0.9);
  },
);

// Measured and held, so that a change of the weights shows here first.
test('the figures are what the report says', () => {
  expect(FIGURES.map(({ first, amongThree }) => ({ first, amongThree }))).toEqual([
    { first: 1715, amongThree: 2023 },
    { first: 1785, amongThree: 1979 },
  ]);
});

test.each(FIGURES)(
  '$name: no shape of the set is out of reach for a large hand',
  ({ name, beyondLarge, tooManyFingers }) => {
    expect(beyondLarge).toEqual([]);
    // One shape of the set lays a barre over a string that is stopped lower: five fingers would be needed.
    expect(tooManyFingers.map(({ entry }) => entry)).toEqual(name === 'guitar' ? ['C 9 4'] : []);
  },
);

test('the report on fingerings is what `npm run report:hand` would write today', () => {
  const report = new URL('../report/hand.md', import.meta.url);
  expect(readFileSync(report, 'utf8')).toBe(`${handReport()}\n`);
});
