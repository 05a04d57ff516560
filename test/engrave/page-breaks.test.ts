import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FlowPiece } from '../../shared/engrave/page/flow.ts';
import type { LegendLook } from '../../shared/engrave/page/page-sizes.ts';
import { divide, FORBIDDEN, type PageUnit, paginate, placedOnPage } from '../../shared/engrave/page/paginate.ts';
import { divideFlow, type PlaceableLegend } from '../../shared/engrave/page/place-legend.ts';
import { type Inline, setLines } from '../../shared/engrave/page/set-lines.ts';
import { PLAIN, STRONG, styledWidth } from '../../shared/engrave/page/type-style.ts';
import { textsUnder } from './extents.ts';

const REQUEST = { measure: 60, size: 4, leading: 5.6 };

function inline(text: string): readonly Inline[] {
  return [{ kind: 'text', text, style: PLAIN }];
}

function textOf(line: ReturnType<typeof setLines>[number]): string {
  return line.items
    .flatMap((item) => textsUnder(item))
    .map(({ text }) => text)
    .join(' ');
}

/** The squares of what is left at the ends of lines, the last one free, and what a short last line costs. */
function unevenness(widths: readonly number[]): number {
  const left = widths.slice(0, -1).reduce((sum, width) => sum + (1 - width / REQUEST.measure) ** 2, 0);
  return left + (widths.length > 1 && (widths.at(-1) ?? 0) < 0.2 * REQUEST.measure ? 0.06 : 0);
}

/** The widths of the lines of every layout in which no line is too wide. */
function everyLayout(words: readonly string[]): readonly (readonly number[])[] {
  if (words.length === 0) return [[]];
  return words.flatMap((_, index) => {
    const width = styledWidth(words.slice(0, index + 1).join(' '), PLAIN, REQUEST.size);
    if (width > REQUEST.measure) return [];
    return everyLayout(words.slice(index + 1)).map((rest) => [width, ...rest]);
  });
}

describe('lines of prose', () => {
  const words = fc.array(fc.constantFrom('a', 'of', 'thumb', 'string', 'evenly', 'lanterns', 'comfortable'), {
    minLength: 1,
    maxLength: 60,
  });

  test('keep all words in order, none wider than the measure', () => {
    fc.assert(
      fc.property(words, (list) => {
        const lines = setLines(inline(list.join(' ')), REQUEST);
        expect(lines.map(textOf).join(' ')).toBe(list.join(' '));
        for (const line of lines) expect(line.width).toBeLessThanOrEqual(REQUEST.measure + 1e-6);
      }),
      { seed: 51, numRuns: 300 },
    );
  });

  test('words that belong together stay on one line where another line has room for them', () => {
    const facts: readonly Inline[] = ['tenor ukulele, high G', '60 to 84 notes a minute', '4 minutes'].flatMap(
      (text, index): readonly Inline[] => [
        ...(index === 0 ? [] : [{ kind: 'text' as const, text: '\u00a0· ', style: PLAIN }]),
        { kind: 'text', text, style: PLAIN, whole: true },
      ],
    );
    const lines = setLines(facts, REQUEST).map(textOf);
    expect(lines.length).toBeGreaterThan(1);
    expect(lines.some((line) => line.includes('60 to 84 notes a minute'))).toBe(true);
    const [first] = setLines(
      [
        { kind: 'text', text: 'three four\u00a0· ', style: PLAIN },
        { kind: 'text', text: '60 to 84 a minute, in steps of four', style: PLAIN, whole: true },
      ],
      REQUEST,
    ).map(textOf);
    expect(first).toMatch(/a minute,$/);
    // What is wider than a line is parted all the same.
    const long = setLines([{ kind: 'text', text: 'evenly '.repeat(20), style: PLAIN, whole: true }], REQUEST);
    expect(long.length).toBeGreaterThan(2);
  });

  test('end as evenly as in the best of all layouts', () => {
    const few = fc.array(fc.constantFrom('a', 'thumb', 'evenly', 'lanterns', 'comfortable', 'overthehill'), {
      minLength: 8,
      maxLength: 14,
    });
    fc.assert(
      fc.property(few, (list) => {
        const best = setLines(inline(list.join(' ')), REQUEST).map(({ width }) => width);
        const least = Math.min(...everyLayout(list).map(unevenness));
        expect(unevenness(best)).toBeCloseTo(least, 6);
      }),
      { seed: 52, numRuns: 60 },
    );
  });

  test('part a word only where it is wider than the line, or after a hyphen between letters', () => {
    expect(setLines(inline('x'.repeat(200)), REQUEST).length).toBeGreaterThan(3);
    const hyphened = setLines(inline(Array.from({ length: 30 }, () => 'two-finger').join(' ')), REQUEST).map(textOf);
    expect(hyphened.some((line) => line.endsWith('two-'))).toBe(true);
    const shapes = setLines(inline(Array.from({ length: 30 }, () => '12-11-0-0').join(' ')), REQUEST).map(textOf);
    expect(shapes.every((line) => line.split(' ').every((word) => word === '12-11-0-0'))).toBe(true);
  });

  test('set another style beside without a gap, and lead from a name to its place', () => {
    const [line] = setLines(
      [
        { kind: 'text', text: 'play ', style: PLAIN },
        { kind: 'text', text: 'Em', style: STRONG, place: 3 },
        { kind: 'text', text: ', then', style: PLAIN },
      ],
      REQUEST,
    );
    const marks = line?.items.flatMap((item) => (item.kind === 'group' ? item.mark?.place : []));
    expect(marks).toEqual([3]);
    const expected = styledWidth('play ', PLAIN, 4) + styledWidth('Em', STRONG, 4) + styledWidth(', then', PLAIN, 4);
    expect(line?.width).toBeCloseTo(expected, 6);
  });
});

function unitOf(height: number, more: Partial<PageUnit> = {}): PageUnit {
  return { height, above: { natural: 5, stretch: 3, shrink: 1 }, turnCost: 0.2, forced: false, ...more };
}

describe('the division into pages', () => {
  const unit = unitOf;
  const firsts = (units: readonly PageUnit[], height = 100): readonly number[] =>
    paginate(units, height).map(({ from }) => from);

  test('every piece stands on one page, in order, within its height', () => {
    const any = fc.record({
      height: fc.integer({ min: 1, max: 100 }),
      turnCost: fc.constantFrom(0, 0.3, FORBIDDEN),
      forced: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(any, { minLength: 1, maxLength: 60 }), (list) => {
        const units = list.map((one) => unit(one.height, one));
        const pages = paginate(units, 100);
        expect(pages.flatMap(({ from, to }) => Array.from({ length: to - from }, (_, at) => from + at))).toEqual(
          units.map((_, index) => index),
        );
        for (const page of pages) {
          const tops = placedOnPage(units, page);
          tops.forEach((top, at) => {
            const bottom = top + (units[page.from + at]?.height ?? 0);
            expect(bottom).toBeLessThanOrEqual(100 + 1e-6);
            const next = tops[at + 1];
            if (next !== undefined) expect(next).toBeGreaterThan(bottom);
          });
        }
        for (const [index, one] of units.entries())
          if (one.forced && index > 0) expect(pages.some(({ from }) => from === index)).toBe(true);
      }),
      { seed: 53, numRuns: 300 },
    );
  });

  test('what must stay together does, where a page can hold it', () => {
    const units = [unit(60), unit(30), unit(30, { turnCost: FORBIDDEN }), unit(25)];
    expect(firsts(units)).toEqual([0, 1]);
  });

  test('an exercise goes on beside rather than over the leaf', () => {
    const song = {};
    // Three pages are needed. The exercise of three pieces begins on page 2, so that it goes on where both pages lie open.
    const units = [unit(55), unit(40, { exercise: song }), unit(50, { exercise: song }), unit(50, { exercise: song })];
    expect(firsts(units)).toEqual([0, 1, 3]);
  });

  test('white is drawn out evenly on a full page, and not on the last', () => {
    const units = [unit(44), unit(44), unit(44), unit(44)];
    const [first, last] = paginate(units, 100);
    expect(first?.strain).toBeGreaterThan(0.9);
    expect(last?.strain).toBe(0);
    if (first !== undefined) expect(placedOnPage(units, first)).toEqual([0, 44 + 5 + 3]);
  });

  test('a last page with hardly anything is filled from the page before', () => {
    const lines = Array.from({ length: 12 }, () => unit(10, { turnCost: 0 }));
    const pages = paginate(lines, 115);
    const last = pages.at(-1);
    expect(pages.length).toBe(2);
    expect((last?.to ?? 0) - (last?.from ?? 0)).toBeGreaterThan(1);
  });

  test('work grows with the lesson, not with its square', () => {
    let asked = 0;
    const counted = (count: number): number => {
      asked = 0;
      const units = Array.from(
        { length: count },
        () =>
          new Proxy(unit(20), {
            get: (target, name) => {
              asked += 1;
              return Reflect.get(target, name);
            },
          }),
      );
      paginate(units, 100);
      return asked;
    };
    const small = counted(200);
    expect(counted(800)).toBeLessThan(small * 4.5);
  });
});

describe('the place of the legend', () => {
  const piece = (height: number, draft: number, more: Partial<FlowPiece> = {}): FlowPiece => {
    const above = { natural: 5, stretch: 3, shrink: 1 };
    return { piece: { height, above, items: [] }, draft, height, above, turnCost: 0.2, forced: false, ...more };
  };
  /** A legend with rows that may be drawn out by 4 in all. */
  const looksOf =
    (heights: Readonly<Record<LegendLook, number>>): PlaceableLegend =>
    (look, room) =>
      piece(heights[look] + Math.min(4, room), 9);
  /** The drafts of each page; the legend is draft 9, for which its height stands. */
  const placed = (heights: readonly number[], [full, beside, close]: readonly [number, number, number]) => {
    const others = heights.map((height, index) => piece(height, index));
    const legend = looksOf({ full, beside, close });
    const { flow, ranges } = divideFlow([...others, piece(beside, 9)], 100, legend);
    for (const range of ranges) {
      const tops = placedOnPage(flow, range);
      expect((tops.at(-1) ?? 0) + (flow[range.to - 1]?.height ?? 0)).toBeLessThanOrEqual(100 + 1e-6);
    }
    return ranges.map(({ from, to }) =>
      flow.slice(from, to).map(({ draft, height }) => (draft === 9 ? height : draft)),
    );
  };

  test.each([
    [
      'behind the last line, where that page has room, and in full where it has enough',
      [90, 40],
      [50, 40, 30],
      [[0], [1, 54]],
    ],
    ['set smaller, where that is enough', [90, 40], [60, 50, 45], [[0], [1, 54]]],
    ['set closer, where that is enough', [90, 52], [60, 50, 41], [[0], [1, 43]]],
    ['at the foot of a page before, where the last has no room', [90, 40, 90], [60, 50, 45], [[0], [1, 54], [2]]],
    ['in full on a page of its own, where none has', [90, 90, 90], [60, 50, 45], [[0], [1], [2], [64]]],
  ] as const)('%s', (_name, heights, looks, pages) => expect(placed(heights, looks)).toEqual(pages));

  test('at the foot of a page it ends where the page does', () => {
    const flow = [piece(90, 0), piece(30, 1), piece(90, 2)];
    const legend = looksOf({ full: 30, beside: 30, close: 30 });
    const divided = divideFlow([...flow, piece(30, 9)], 100, legend);
    const range = divided.ranges[1];
    const top = range === undefined ? undefined : placedOnPage(divided.flow, range).at(-1);
    expect(top).toBeCloseTo(100 - 34, 6);
  });

  test('pages are divided otherwise for it where that takes less paper', () => {
    // Without the legend, two pages are best filled 70 and 30; with it the second piece goes over to the second page.
    const others = [piece(60, 0), piece(30, 1), piece(30, 2)];
    const divided = divideFlow([...others, piece(35, 9)], 100, looksOf({ full: 90, beside: 35, close: 34 }));
    expect(divided.ranges.length).toBe(2);
    expect(divided.flow.map(({ draft }) => draft)).toContain(9);
  });

  test('costs no less than any other place, by trial of all', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 10, max: 60 }), { minLength: 1, maxLength: 7 }), (heights) => {
        const units = heights.map((height) => unitOf(height));
        const note = { height: 25, above: { natural: 5, stretch: 3, shrink: 1 } };
        const { ranges, cost } = divide(units, 100, note);
        const noted = ranges.filter(({ noted }) => noted === true);
        expect(noted.length).toBe(cost === Number.POSITIVE_INFINITY ? 0 : 1);
        // The note below the last piece is one piece more that ends a page: no division with it there may cost less.
        const last = units.at(-1);
        if (last === undefined) return;
        const joined = [...units.slice(0, -1), { ...last, height: last.height + note.above.natural + note.height }];
        if (last.height + note.above.natural + note.height <= 100)
          expect(cost).toBeLessThanOrEqual(divide(joined, 100).cost + 1e-9);
      }),
      { seed: 54, numRuns: 200 },
    );
  });
});
