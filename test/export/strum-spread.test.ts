import { describe, expect, test } from 'vitest';
import { type Stroke, strumOffsets } from '../../shared/score/strum-spread.ts';

// Common practice, no source: what is checked is the shape of a stroke, not one recording of it.

const STROKE: Stroke = { strings: 4, direction: 'down', slow: false, lengthMs: 500, beatMs: 500 };

describe('a stroke in time', () => {
  test('begins on its moment and meets the strings evenly', () => {
    const [first, second = 0, third, fourth] = strumOffsets(STROKE);
    expect(first).toBe(0);
    expect(second).toBeGreaterThan(0);
    expect(third).toBeCloseTo(2 * second);
    expect(fourth).toBeCloseTo(3 * second);
  });

  test('is quicker up than down, quicker in a quick piece, and broad where it is spread', () => {
    const last = (stroke: Partial<Stroke>) => strumOffsets({ ...STROKE, ...stroke }).at(-1) ?? 0;
    expect(last({ direction: 'up' })).toBeLessThan(last({}));
    expect(last({ beatMs: 300 })).toBeLessThan(last({}));
    expect(last({ beatMs: 1000, lengthMs: 1000 })).toBeGreaterThan(last({}));
    expect(last({ slow: true })).toBeGreaterThan(3 * last({}));
  });

  test('takes no more than a quarter of its length, a spread one no more than half', () => {
    for (const lengthMs of [0, 10, 40, 100, 2000]) {
      for (const direction of ['down', 'up'] as const) {
        const stroke = { ...STROKE, strings: 8, direction, lengthMs };
        expect(strumOffsets(stroke).at(-1)).toBeLessThanOrEqual(lengthMs / 4 + 1e-9);
        expect(strumOffsets({ ...stroke, slow: true }).at(-1)).toBeLessThanOrEqual(lengthMs / 2 + 1e-9);
      }
    }
  });

  test('of one string is one moment, of none nothing', () => {
    expect(strumOffsets({ ...STROKE, strings: 1 })).toEqual([0]);
    expect(strumOffsets({ ...STROKE, strings: 0 })).toEqual([]);
  });
});
