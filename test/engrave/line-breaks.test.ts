import { describe, expect, test } from 'vitest';
import { type BreakProblem, costOfLine, type WeighedLine } from '../../shared/engrave/best-breaks.ts';
import { createKeptPieces } from '../../shared/engrave/kept-pieces.ts';
import { evenBreaks } from '../../shared/engrave/line-breaks.ts';
import { STRETCH } from '../../shared/engrave/sizes.ts';
import { splitWideBars } from '../../shared/engrave/split-bar.ts';
import { readyBar } from '../../shared/engrave/tab-bar.ts';
import { lineOf, namesWidth } from '../../shared/engrave/tab-line.ts';
import { staffOf } from '../../shared/engrave/tab-piece.ts';
import { placeSlots, stretchFor } from '../../shared/engrave/tab-spacing.ts';
import type { ScoreBar } from '../../shared/score/timeline.ts';
import { type BarSketch, bar, chord } from './hand-made.ts';

const STAFF = staffOf(4);
const NAMES = ['G', 'C', 'E', 'A'];
const LOOK = {
  staff: STAFF,
  mixed: false,
  rhythm: true,
  counts: true,
  leftHanded: false,
  starts: [],
  kept: createKeptPieces(),
} as const;

const EIGHTHS = { counts: '1 & 2 & 3 & 4 &', play: '4p:0 2i:0 3p:0 1m:3 4p:0 2i:0 3p:0 1m:3' };
const QUARTERS = { counts: '1 2 3 4', play: 'D D U D' };
const HALVES = { counts: '1 2 3 4', play: 'D . U .' };
const NAMED = {
  ...QUARTERS,
  chords: [
    [0, chord('F#m7b5', [2, 4, 2, 3])],
    [4, chord('Bbmaj7/F', [3, 2, 1, 1])],
  ],
} as const;
const SUNG = {
  ...HALVES,
  words: [
    [0, 'strength'],
    [1, 'through'],
    [2, 'Wednesday'],
    [3, 'low'],
  ],
} as const;

function ready(sketches: readonly BarSketch[], changes: readonly Partial<ScoreBar>[] = []) {
  return sketches.map((sketch, index) =>
    readyBar({ ...bar({ ...sketch, number: index + 1 }), ...changes[index] }, LOOK, new Set()),
  );
}

/** The same choice with every line placed exactly, however long that takes. */
function exactly(bars: ReturnType<typeof ready>, widthMm: number): BreakProblem {
  const known = new Map<string, number | undefined>();
  const stretchOf = (first: number, count: number): number | undefined => {
    const key = `${first} ${count}`;
    if (!known.has(key)) {
      const { slots } = lineOf(bars, first, count, STAFF);
      const width = widthMm - namesWidth(first === 0 ? NAMES : undefined);
      const fits = placeSlots(slots, STRETCH.comfortable).width <= width;
      known.set(key, fits ? stretchFor(slots, width, 50) : count === 1 ? STRETCH.comfortable : undefined);
    }
    return known.get(key);
  };
  return { bars: bars.length, stretchOf, breakCost: () => 0 };
}

function costOf(problem: BreakProblem, breaks: readonly number[]): number {
  let cost = 0;
  let before: WeighedLine | undefined;
  for (const [index, first] of breaks.entries()) {
    const count = (breaks[index + 1] ?? problem.bars) - first;
    const stretch = problem.stretchOf(first, count);
    if (stretch === undefined) return Number.POSITIVE_INFINITY;
    before = { first, count, stretch };
    const previous = breaks[index - 1];
    const lineBefore =
      previous === undefined
        ? undefined
        : { first: previous, count: first - previous, stretch: problem.stretchOf(previous, first - previous) ?? 1 };
    cost += costOfLine(problem, before, lineBefore);
  }
  return cost;
}

describe('where lines of real bars end', () => {
  const kinds = [EIGHTHS, QUARTERS, HALVES, NAMED, SUNG];

  test.each([90, 140, 186, 300])(
    'at %i mm the quick choice costs hardly more than the best, every line placed exactly',
    (widthMm) => {
      for (let seed = 0; seed < 12; seed++) {
        const sketches = Array.from(
          { length: 8 },
          (_, index) => kinds[(seed * 7 + index * (1 + (seed % 3))) % kinds.length] ?? EIGHTHS,
        );
        const bars = ready(sketches);
        const problem = exactly(bars, widthMm);
        const every = Array.from({ length: 128 }, (_, choice) => [
          0,
          ...[1, 2, 3, 4, 5, 6, 7].filter((at) => (choice >> (at - 1)) % 2 === 1),
        ]);
        const best = Math.min(...every.map((breaks) => costOf(problem, breaks)));
        const found = costOf(problem, evenBreaks(bars, { widthMm, stringNames: NAMES }, STAFF));
        expect(found, `seed ${seed}`).toBeLessThan(best + 0.12);
      }
    },
  );

  test('a repeat does not end with the first bar of a line where a break beside it costs little', () => {
    const plain = ready(Array.from({ length: 6 }, () => HALVES));
    const widthMm = 170;
    const [, second] = evenBreaks(plain, { widthMm }, STAFF);
    if (second === undefined) throw new Error('one line is no test');
    const changes: Partial<ScoreBar>[] = Array.from({ length: 6 }, () => ({}));
    changes[second] = { closes: ':|' };
    expect(
      evenBreaks(
        ready(
          Array.from({ length: 6 }, () => HALVES),
          changes,
        ),
        { widthMm },
        STAFF,
      ),
    ).not.toContain(second);
  });

  test('no more bars in a line than asked for', () => {
    const breaks = evenBreaks(ready(Array.from({ length: 8 }, () => HALVES)), { widthMm: 300, mostBars: 2 }, STAFF);
    expect(breaks).toEqual([0, 2, 4, 6]);
  });
});

// Case E-9: a bar too wide for the screen shrinks to a stated minimum, then splits at a beat.
describe('bars too wide for the page', () => {
  const wide: BarSketch = {
    counts: '1 e & a 2 e & a 3 e & a 4 e & a',
    play: Array.from({ length: 16 }, () => '1p:12').join(' '),
    ending: { numbers: [1], begins: true, ends: true },
    closes: ':|',
    times: 3,
  };

  test('are parted at beats, nothing lost and nothing twice', () => {
    const [whole] = ready([wide]);
    if (whole === undefined) throw new Error('no bar');
    const parts = splitWideBars([whole], { widthMm: 50 }, STAFF);
    expect(parts.length).toBeGreaterThan(1);
    expect(parts.map(({ cut }) => cut)).toEqual(
      parts.map((_, index) => ({ before: index > 0, after: index < parts.length - 1 })),
    );
    expect(parts.flatMap(({ bar: { counts } }) => counts.map(({ text }) => text))).toEqual(wide.counts?.split(' '));
    expect(parts.flatMap(({ bar: { events } }) => events)).toEqual(whole.bar.events);
    for (const part of parts) expect(part.bar.counts[0]?.text).toMatch(/^\d$/);
    const entries = parts.flatMap(({ rhythm }) => rhythm.flatMap(({ line }) => line.entries));
    expect(entries).toEqual(whole.rhythm.flatMap(({ line }) => line.entries));
    const beams = (bars: readonly (typeof whole)[]): number =>
      bars.flatMap(({ rhythm }) => rhythm.flatMap(({ line }) => line.beams)).length;
    expect(beams(parts)).toBe(beams([whole]));
    for (const { rhythm } of parts)
      for (const { line, slots } of rhythm) {
        expect(slots.length).toBe(line.entries.length);
        for (const { last } of line.beams) expect(last).toBeLessThan(line.entries.length);
      }
  });

  test('the ending begins on the first part and ends on the last, and so does the repeat', () => {
    const parts = splitWideBars(ready([wide]), { widthMm: 50 }, STAFF).map(({ bar: part }) => part);
    expect(parts[0]?.ending).toEqual({ numbers: [1], begins: true, ends: false });
    expect(parts.at(-1)?.ending).toEqual({ numbers: [1], begins: false, ends: true });
    expect(parts[0]).toMatchObject({ closes: '|' });
    expect(parts[0]?.times).toBeUndefined();
    expect(parts.at(-1)).toMatchObject({ closes: ':|', times: 3 });
  });

  test('each part has a line of its own', () => {
    const parts = splitWideBars(ready([QUARTERS, wide, QUARTERS]), { widthMm: 50 }, STAFF);
    const breaks = evenBreaks(parts, { widthMm: 50 }, STAFF);
    expect(breaks).toEqual(parts.map((_, index) => index));
  });

  test('a bar that fits stays whole, as the very same value', () => {
    const bars = ready([wide, QUARTERS]);
    expect(splitWideBars(bars, { widthMm: 186 }, STAFF)).toBe(bars);
  });
});
