import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Finger } from '../../shared/hand/finger.ts';
import { pairReach, strainOf } from '../../shared/hand/finger-reach.ts';
import type { Press } from '../../shared/hand/fingering.ts';
import { type HandName, handModel } from '../../shared/hand/hand.ts';
import { pairLimit } from '../../shared/hand/hand-model.ts';
import { heldShape } from '../../shared/hand/held-shape.ts';
import { instrument } from '../neck/playing.ts';
import { SEED } from '../theory/reading.ts';
import { judged } from './fingers.ts';

const GUITAR = instrument('guitar');

/**
 * The flat hand once more in lines of its own: finger lengths and greatest angles of Chatzioglou, Pinar & Govsa 2024 (index 63.9, middle
 * 70.7, ring 65.5, little 53.3 mm; 17.2°, 14.3°, 32.1°), hand breadths and lengths of ANSUR II; the shares are ours, common practice.
 */
const TIPS = [
  [-0.30019663, 63.9],
  [0, 70.7],
  [0.24958208, 65.5],
  [0.80983277, 53.3],
] as const;
const SHARES: readonly (readonly [Finger, Finger, number, number])[] = [
  [1, 2, 1.5, 1.8],
  [1, 3, 0.9, 1.2],
  [1, 4, 0.6, 0.8],
  [2, 3, 1.2, 1.8],
  [2, 4, 0.78, 1.05],
  [3, 4, 0.9, 1.3],
];
const HANDS = [
  ['small', 165, 72],
  ['medium', 187, 83],
  ['large', 210, 96],
] as const;

test.each(HANDS)('the reach of each pair of fingers of a %s hand is what its measures say', (hand, length, breadth) => {
  const tip = (finger: number) => {
    const [angle, mm] = TIPS[finger - 1] ?? [0, 0];
    const reach = (mm * length) / 187;
    return [(finger * breadth) / 4 + reach * Math.sin(angle), reach * Math.cos(angle)] as const;
  };
  for (const [one, other, comfortable, greatest] of SHARES) {
    const [x1, y1] = tip(Number(one));
    const [x2, y2] = tip(Number(other));
    const flat = Math.sqrt((x2 - x1) ** 2 + (y2 - y1) ** 2);
    const limit = pairLimit(handModel(hand), one, other);
    expect(limit.comfortableMm).toBeCloseTo(comfortable * flat, 3);
    expect(limit.greatestMm).toBeCloseTo(greatest * flat, 3);
    expect(pairLimit(handModel(hand), other, one)).toEqual(limit);
  }
});

// What the shares were set for, common practice, no source.
test.each([
  [
    'one finger a fret at the nut of a guitar is at ease for a small hand',
    '1-2-0-0-0-0',
    '120000',
    'small',
    'comfortable',
  ],
  ['the open chord of C on a guitar is at ease for a medium hand', 'x32010', '032010', 'medium', 'comfortable'],
  ['and a stretch for a small one', 'x32010', '032010', 'small', 'stretched'],
  ['frets 1 to 4 of a guitar are the limit of a medium hand', '1-0-0-0-0-4', '100004', 'medium', 'stretched'],
  ['and beyond a small one', '1-0-0-0-0-4', '100004', 'small', 'out-of-reach'],
  [
    'two frets with index and middle finger at the third fret of a guitar are at ease',
    '3-5-0-0-0-0',
    '120000',
    'medium',
    'comfortable',
  ],
  ['the open chord of C minor on a guitar is a stretch', 'x31013', '031024', 'medium', 'stretched'],
  [
    'two fingers in one fret on the outer strings are at ease for a child',
    '5-0-0-0-0-5',
    '100002',
    'child',
    'comfortable',
  ],
] as const)('%s', (_what, frets, fingers, hand, verdict) => {
  expect(judged(GUITAR, frets, fingers, hand).fingering?.verdict).toBe(verdict);
});

/** Two single fingers on a guitar. */
function apart(
  low: Finger,
  lowFret: number,
  high: Finger,
  highFret: number,
  strings: readonly [number, number],
  hand: HandName,
) {
  const held: number[] = new Array<number>(6).fill(0);
  held[strings[0]] = lowFret;
  held[strings[1]] = highFret;
  const press = (finger: Finger, fret: number, at: number): Press => ({ finger, fret, from: at, to: at, sounding: 1 });
  return pairReach(
    heldShape(GUITAR, held, handModel(hand)),
    press(low, lowFret, strings[0]),
    press(high, highFret, strings[1]),
  );
}

test('along the neck it is the way between two tips, each 5 mm behind its wire', () => {
  // 650 mm, frets 3 and 5: 103.42 and 163.05 mm from the nut by a builder's table.
  const reach = apart(1, 3, 3, 5, [2, 2 + 1], 'medium');
  expect(reach.alongMm).toBeCloseTo(163.05 - 103.42, 1);
  expect(reach.reachMm).toBe(reach.alongMm);
});

test('across the strings nothing counts that bent fingers take up; for a child the outer strings of a guitar count', () => {
  const medium = apart(1, 1, 4, 3, [5, 0], 'medium');
  expect(medium.acrossMm).toBeGreaterThan(42);
  expect(medium.reachMm).toBe(medium.alongMm);
  const child = apart(1, 5, 4, 7, [5, 0], 'child');
  expect(child.reachMm).toBeGreaterThan(child.alongMm);
  expect(child.reachMm).toBeCloseTo(Math.hypot(child.alongMm, child.acrossMm - 0.7 * 63.9 * 0.78), 6);
});

test('strain grows with the reach and never with the hand, and says the verdict', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...SHARES),
      fc.double({ min: 0, max: 200, noNaN: true }),
      fc.double({ min: 0, max: 20, noNaN: true }),
      fc.integer({ min: 110, max: 299 }),
      ([one, other], reachMm, more, spanMm) => {
        const limit = pairLimit(handModel({ spanMm }), one, other);
        const bigger = pairLimit(handModel({ spanMm: spanMm + 1 }), one, other);
        const strain = strainOf(reachMm, limit);
        expect(strainOf(reachMm + more, limit)).toBeGreaterThanOrEqual(strain);
        expect(strainOf(reachMm, bigger)).toBeLessThanOrEqual(strain);
        expect(strain <= 1).toBe(reachMm <= limit.comfortableMm);
        if (Math.abs(reachMm - limit.greatestMm) > 1e-9) expect(strain <= 2).toBe(reachMm <= limit.greatestMm);
      },
    ),
    { seed: SEED, numRuns: 500 },
  );
});

test('the named hands grow in every pair: child, small, medium, large', () => {
  for (const [one, other] of SHARES) {
    const limits = (['child', 'small', 'medium', 'large'] as const).map(
      (hand) => pairLimit(handModel(hand), one, other).greatestMm,
    );
    expect([...limits].sort((a, b) => a - b)).toEqual(limits);
  }
});
