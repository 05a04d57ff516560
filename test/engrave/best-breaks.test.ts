import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type BreakProblem,
  bestBreaks,
  costOfLine,
  LINE_COSTS,
  lastStretch,
  mostToFill,
  type WeighedLine,
} from '../../shared/engrave/best-breaks.ts';
import { STRETCH } from '../../shared/engrave/sizes.ts';

/** Bars of the given natural widths on a page; they shrink and grow as a whole. */
function onPage(widths: readonly number[], page: number, costs: readonly number[] = []): BreakProblem {
  return {
    bars: widths.length,
    stretchOf: (first, count) => {
      const stretch = page / widths.slice(first, first + count).reduce((sum, width) => sum + width, 0);
      if (stretch >= STRETCH.comfortable) return stretch;
      return count === 1 ? STRETCH.comfortable : undefined;
    },
    breakCost: (bar) => costs[bar] ?? 0,
  };
}

function costOf(problem: BreakProblem, breaks: readonly number[]): number {
  let cost = 0;
  let before: WeighedLine | undefined;
  for (const [index, first] of breaks.entries()) {
    const count = (breaks[index + 1] ?? problem.bars) - first;
    const stretch = problem.stretchOf(first, count);
    if (stretch === undefined) return Number.POSITIVE_INFINITY;
    const line = { first, count, stretch };
    cost += costOfLine(problem, line, before);
    before = line;
  }
  return cost;
}

/** Every way to begin lines: one for each set of bars but the first. */
function everyBreaking(bars: number): readonly (readonly number[])[] {
  return Array.from({ length: 2 ** (bars - 1) }, (_, choice) => [
    0,
    ...Array.from({ length: bars - 1 }, (_, index) => index + 1).filter((bar) => (choice >> (bar - 1)) % 2 === 1),
  ]);
}

describe('lines broken for the whole paragraph at once', () => {
  test('no way to break costs less, as trying all of them shows', () => {
    const width = fc.double({ min: 10, max: 130, noNaN: true });
    const cost = fc.constantFrom(0, 0, 0, LINE_COSTS.beforeRepeatEnd, LINE_COSTS.insideEnding);
    let lines = 0;
    fc.assert(
      fc.property(
        fc.array(fc.tuple(width, cost), { minLength: 1, maxLength: 10, size: 'max' }),
        fc.constantFrom(90, 186, 300),
        (bars, page) => {
          const problem = onPage(
            bars.map(([natural]) => natural),
            page,
            bars.map(([, against]) => against),
          );
          const found = bestBreaks(problem);
          const least = Math.min(...everyBreaking(bars.length).map((breaks) => costOf(problem, breaks)));
          expect(found[0]).toBe(0);
          expect(costOf(problem, found)).toBeCloseTo(least, 9);
          lines += found.length;
        },
      ),
      { seed: 21, numRuns: 300 },
    );
    // The inputs are worth the proof only if many of them need several lines.
    expect(lines).toBeGreaterThan(600);
  });

  test('filling each line as far as it goes is not what comes out', () => {
    // Greedily the first line takes four bars and leaves one for the second.
    const breaks = bestBreaks(onPage([50, 50, 50, 50, 50], 186));
    expect(breaks).toEqual([0, 3]);
  });

  test.each([
    ['eight equal bars of which four fit', [46, 46, 46, 46, 46, 46, 46, 46], 186, [0, 4]],
    ['one bar less than two full lines', [60, 60, 60, 60, 60], 186, [0, 3]],
    ['bars wider than the page', [400, 400, 400], 186, [0, 1, 2]],
    ['six bars of which four fit: no last line half empty', [46, 46, 46, 46, 46, 46], 186, [0, 3]],
    ['a single bar', [40], 186, [0]],
    ['no bars', [], 186, []],
  ])('%s', (_name, widths, page, breaks) => expect(bestBreaks(onPage(widths, page))).toEqual(breaks));

  test('a repeat is not torn off before its last bar where another place costs little', () => {
    const widths = [50, 50, 50, 50, 50, 50];
    expect(bestBreaks(onPage(widths, 186))).toEqual([0, 3]);
    const against = [0, 0, 0, LINE_COSTS.beforeRepeatEnd, 0, 0];
    expect(bestBreaks(onPage(widths, 200, against))).not.toContain(3);
  });

  test('twelve bars in sections of four are broken after each section, though five fit on a line', () => {
    const widths = Array.from({ length: 12 }, () => 37);
    const inside = widths.map((_, bar) => (bar % 4 === 0 ? 0 : LINE_COSTS.insideSection));
    expect(bestBreaks(onPage(widths, 186, inside))).toEqual([0, 4, 8]);
  });

  test('the last line fills the width where that asks little, else it is hardly looser than the line before it', () => {
    const nearly = mostToFill(1);
    expect(lastStretch(nearly - 0.01, 1)).toBe(nearly - 0.01);
    expect(lastStretch(nearly, 1)).toBeCloseTo(STRETCH.lastAgainstBefore, 9);
    expect(lastStretch(50, undefined)).toBeLessThanOrEqual(STRETCH.lastLine);
    expect(lastStretch(50, 0.9)).toBeCloseTo(Math.max(1, 0.9 * STRETCH.lastAgainstBefore), 9);
    expect(lastStretch(50, 2.2)).toBe(STRETCH.lastLine);
    for (const before of [undefined, 0.82, 1, 1.5, 2.2]) expect(mostToFill(before)).toBeLessThanOrEqual(STRETCH.filled);
  });

  test('four hundred bars take a moment: the work grows with the bars, not with the ways to break them', () => {
    const widths = Array.from({ length: 400 }, (_, index) => 30 + ((index * 37) % 41));
    let asked = 0;
    const plain = onPage(widths, 186);
    const problem = {
      ...plain,
      stretchOf: (first: number, count: number) => {
        asked++;
        return plain.stretchOf(first, count);
      },
    };
    expect(bestBreaks(problem).length).toBeGreaterThan(50);
    expect(asked).toBeLessThan(400 * 10);
  });
});
