import fc from 'fast-check';
import { expect, test } from 'vitest';
import { HAND_NAMES, type HandSize, parseHand, printHand, reachLimit } from '../../shared/hand/hand.ts';
import { CAUTION_ON_STRETCH, judgeReach, measureReach } from '../../shared/hand/reach.ts';
import { withCapo } from '../../shared/neck/instruments.ts';
import { BARITONE, HIGH_G, instrument, shape } from '../neck/playing.ts';
import { SEED } from '../theory/reading.ts';
import { USUAL_CHART } from '../voicing/usual-chart.ts';

/** Frets 1 to 4 and 1 to 5, in whole mm; arithmetic on the scale lengths of the builders' tables. */
test.each([
  ['concert ukulele', 57, 74],
  ['tenor ukulele', 65, 84],
  ['baritone ukulele', 76, 99],
  ['guitar', 98, 127],
])('%s: frets 1 to 4 need %i mm, 1 to 5 %i mm', (name, toFour, toFive) => {
  const on = instrument(name);
  const strings = on.openStrings.length;
  const reach = (high: number) => measureReach(on, [1, ...new Array<number>(strings - 2).fill(0), high]);
  expect(Math.round(reach(4)?.reachMm ?? 0)).toBe(toFour);
  expect(Math.round(reach(5)?.reachMm ?? 0)).toBe(toFive);
  expect(reach(5)).toMatchObject({ lowFret: 1, highFret: 5, spanFrets: 4 });
});

test('open and muted strings do not count', () => {
  expect(measureReach(HIGH_G, shape('0000'))).toBeUndefined();
  expect(measureReach(HIGH_G, ['muted', 0, 0, 3])).toMatchObject({ lowFret: 3, highFret: 3, spanFrets: 0, reachMm: 0 });
  expect(measureReach(HIGH_G, shape('0-7-0-9'))).toMatchObject({ lowFret: 7, highFret: 9, spanFrets: 2 });
});

/**
 * The model once more in a few lines of its own. Sources: ANSUR II for breadth and length; Chatzioglou, Pinar & Govsa 2024 for
 * fingers and angles. The women's and men's mean breadths (78.2 and 88.3 mm) must give the published bracket of 119 to 126 mm.
 */
test('the flat hand reaches what its measures say', () => {
  const flat = (breadth: number, scale: number) => {
    const index = [63.9 * Math.sin(0.300197), 63.9 * Math.cos(0.300197)] as const;
    const little = [53.3 * Math.sin(0.809833), 53.3 * Math.cos(0.809833)] as const;
    return Math.hypot(0.75 * breadth + scale * (index[0] + little[0]), scale * (index[1] - little[1]));
  };
  expect(Math.round(flat(78.2, 1))).toBe(119);
  expect(Math.round(flat(88.3, 1))).toBe(126);
  expect(reachLimit('medium').greatestMm).toBeCloseTo(0.8 * flat(83, 1), 2);
  expect(reachLimit('small').comfortableMm).toBeCloseTo(0.6 * flat(72, 165 / 187), 2);
  expect(reachLimit('large').greatestMm).toBeCloseTo(0.8 * flat(96, 210 / 187), 2);
});

test.each(USUAL_CHART)('%s is comfortable for a medium hand on a tenor', (frets) => {
  expect(judgeReach(HIGH_G, shape(frets), 'medium')?.verdict ?? 'comfortable').toBe('comfortable');
});

test.each(['soprano', 'concert', 'tenor', 'baritone'])('the widest usual shapes can be reached on a %s', (size) => {
  for (const frets of ['1402', '2413']) {
    for (const hand of ['small', 'medium', 'large'] as const) {
      expect(judgeReach(instrument(size), shape(frets), hand)?.verdict).not.toBe('out-of-reach');
    }
  }
});

test('four frets at the nut of a baritone: too far for a small hand, a stretch for a large one, easy up the neck', () => {
  const verdict = (frets: string, hand: HandSize) => judgeReach(BARITONE, shape(frets), hand)?.verdict;
  expect(verdict('1-0-0-5', 'small')).toBe('out-of-reach');
  expect(verdict('1-0-0-5', 'large')).toBe('stretched');
  expect(verdict('12-0-0-16', 'small')).toBe('comfortable');
});

test.each([
  ['small', 'small'],
  ['Large', 'large'],
  ['200', '200 mm'],
  ['190.5 mm', '190.5 mm'],
])('%s is a hand', (written, printed) => {
  const read = parseHand(written);
  expect(read.ok ? printHand(read.value) : read.problem).toBe(printed);
});
test.each(['', 'huge', '12', '4000 mm', '-200'])('"%s" is no hand', (written) =>
  expect(parseHand(written).ok).toBe(false),
);

const stretch = fc.tuple(
  fc.integer({ min: 1, max: 8 }),
  fc.integer({ min: 0, max: 6 }),
  fc.constantFrom(...HAND_NAMES),
);
const ORDER = ['comfortable', 'stretched', 'out-of-reach'];
const rank = (of: ReturnType<typeof judgeReach>) => ORDER.indexOf(of?.verdict ?? 'comfortable');

test('a longer scale, a smaller hand, a wider span never make a shape easier; up the neck and with a capo it never gets harder', () => {
  fc.assert(
    fc.property(stretch, fc.integer({ min: 300, max: 700 }), ([low, span, hand], scaleLengthMm) => {
      const on = { ...HIGH_G, scaleLengthMm };
      const held = [low, 0, 0, low + span];
      const here = rank(judgeReach(on, held, hand));
      expect(rank(judgeReach({ ...on, scaleLengthMm: scaleLengthMm + 20 }, held, hand))).toBeGreaterThanOrEqual(here);
      expect(rank(judgeReach(on, [low, 0, 0, low + span + 1], hand))).toBeGreaterThanOrEqual(here);
      expect(
        rank(
          judgeReach(
            on,
            held.map((fret) => (fret === 0 ? 0 : fret + 1)),
            hand,
          ),
        ),
      ).toBeLessThanOrEqual(here);
      expect(rank(judgeReach(withCapo(on, 3), held, hand))).toBeLessThanOrEqual(here);
    }),
    { seed: SEED, numRuns: 500 },
  );
  const limits = (['child', 'small', 'medium', 'large'] as const).map((hand) => reachLimit(hand).greatestMm);
  expect([...limits].sort((a, b) => a - b)).toEqual(limits);
});

test('the caution says warm up, stop at pain, and whom to ask', () => {
  expect(CAUTION_ON_STRETCH).toMatch(/warm up/i);
  expect(CAUTION_ON_STRETCH).toMatch(/hurts, stop/);
  expect(CAUTION_ON_STRETCH).toMatch(/teacher or clinician/);
});
