import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Fingering } from '../../shared/hand/fingering.ts';
import { fingeringsOf } from '../../shared/hand/fingering-search.ts';
import { judgeFingers } from '../../shared/hand/given-fingers.ts';
import type { HandSize } from '../../shared/hand/hand.ts';
import { neckAboveCapo } from '../../shared/neck/capo.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { withCapo } from '../../shared/neck/instruments.ts';
import type { Fret, Shape } from '../../shared/neck/shape.ts';
import { BARITONE, HIGH_G, instrument } from '../neck/playing.ts';
import { SEED } from '../theory/reading.ts';
import { printFingers } from './fingers.ts';

const GUITAR = instrument('guitar');
const FIVE = instrument('tuned G4 G3 C4 E4 A4 scale 500 mm spacing 8 mm');
const EIGHT = instrument('tuned B1 E2 A2 D3 G3 B3 E4 A4 scale 650 mm');

/** A generator of its own (mulberry32, public domain), so that ten thousand shapes cost little. */
function randomNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

function randomShape(random: () => number, strings: number): Shape {
  const low = 1 + Math.floor(random() * 12);
  return Array.from({ length: strings }, (): Fret => {
    const kind = random();
    if (kind < 0.12) return 'muted';
    return kind < 0.3 ? 0 : low + Math.floor(random() * 4);
  });
}

/** Finger lengths, how much of them lies flat, and how much while the middle bends up, for a medium hand: the table once more. Unit: mm. */
const FLAT_MM = [0.95 * 63.9, 0.32 * 70.7, 0.45 * 65.5, 0.42 * 53.3];
const BENT_MM = [63.9, 70.7, 65.5, 53.3].map((length) => 0.38 * length);

/** The rules once more, slow and plain: tries every finger on every stopped string. */
function everyWay(shape: Shape, pitchMm: number): readonly string[] {
  const found: string[] = [];
  const fingers: number[] = [];
  const tryString = (at: number): void => {
    if (at === shape.length) {
      if (handsHold(shape, fingers, pitchMm)) found.push(fingers.join(''));
      return;
    }
    const fret = shape[at];
    for (const finger of fret === 'muted' || fret === 0 ? [0] : [1, 2, 3, 4]) {
      // No finger is in two frets; saying so here spares most of the tries.
      if (finger > 0 && fingers.slice(0, at).some((one, below) => one === finger && shape[below] !== fret)) continue;
      fingers[at] = finger;
      tryString(at + 1);
    }
  };
  tryString(0);
  return found;
}

function handsHold(shape: Shape, fingers: readonly number[], pitchMm: number): boolean {
  const places = [1, 2, 3, 4].map((finger) => fingers.flatMap((one, at) => (one === finger ? [at] : [])));
  for (const [row, strings] of places.entries()) {
    const [from = 0, to = 0] = [strings[0], strings.at(-1)];
    if (strings.length === 0) continue;
    const fret = Number(shape[from]);
    if (strings.some((at) => shape[at] !== fret)) return false;
    for (let at = from; at <= to; at += 1) {
      const under = shape[at] ?? 'muted';
      if (under !== 'muted' && (under < fret || (under === fret && fingers[at] !== row + 1))) return false;
    }
    const bent = shape.slice(to + 1).some((beside) => beside !== 'muted' && beside < fret);
    const longEnough = (to - from) * pitchMm <= ((bent ? BENT_MM : FLAT_MM)[row] ?? 0);
    if (to > from && !longEnough) return false;
  }
  for (let low = 0; low < 4; low += 1) {
    for (let high = low + 1; high < 4; high += 1) {
      const [lower, higher] = [places[low] ?? [], places[high] ?? []];
      if (lower.length === 0 || higher.length === 0) continue;
      const [lowFret, highFret] = [Number(shape[lower[0] ?? 0]), Number(shape[higher[0] ?? 0])];
      if (lowFret > highFret) return false;
      if (lowFret < highFret || Math.max(...lower) < Math.min(...higher)) continue;
      if (high > low + 1 || Math.max(...higher) > Math.min(...lower)) return false;
    }
  }
  return true;
}

test.each([
  ['ukulele', HIGH_G, 8000],
  ['five strings', FIVE, 1000],
  ['guitar', GUITAR, 970],
  ['eight strings', EIGHT, 30],
] as const)('%s: the search finds what trying every finger finds, and no more', (_name, on, runs) => {
  const random = randomNumbers(SEED);
  for (let run = 0; run < runs; run += 1) {
    const shape = randomShape(random, on.openStrings.length);
    const ways = fingeringsOf(on, shape, 'medium').map(printFingers).sort();
    const slow = [...everyWay(shape, on.stringPitchMm)].sort();
    if (ways.join() !== slow.join()) expect({ shape, ways }).toEqual({ shape, ways: slow });
  }
});

const VERDICTS = ['comfortable', 'stretched', 'out-of-reach'];
const rank = (way: Fingering | undefined) => VERDICTS.indexOf(way?.verdict ?? 'comfortable');

const fret = fc.oneof(
  { weight: 2, arbitrary: fc.constantFrom<Fret[]>('muted', 0) },
  { weight: 5, arbitrary: fc.integer({ min: 1, max: 5 }) },
);
const held: fc.Arbitrary<{ readonly on: Instrument; readonly shape: Shape }> = fc
  .constantFrom(HIGH_G, BARITONE, GUITAR, FIVE)
  .chain((on) =>
    fc.record({
      on: fc.constant(on),
      shape: fc.array(fret, { minLength: on.openStrings.length, maxLength: on.openStrings.length }),
    }),
  );
const hands = fc.constantFrom<HandSize[]>('child', 'small', 'medium', 'large');

test('ways are in order, each once, and the judge of given fingers makes the same fingering of them', () => {
  fc.assert(
    fc.property(held, hands, ({ on, shape }, hand) => {
      const ways = fingeringsOf(on, shape, hand);
      expect(new Set(ways.map(printFingers)).size).toBe(ways.length);
      for (const [at, way] of ways.entries()) {
        const next = ways[at + 1];
        const { total, ...parts } = way.cost;
        const all = Object.values(parts);
        expect(total).toBeCloseTo(
          all.reduce((sum, part) => sum + part, 0),
          9,
        );
        expect(Math.min(...all)).toBeGreaterThanOrEqual(0);
        if (next !== undefined && rank(way) === rank(next)) expect(next.cost.total).toBeGreaterThan(total - 1e-6);
        if (next !== undefined) expect(rank(next)).toBeGreaterThanOrEqual(rank(way));
        const given = way.fingers.map((finger) => finger ?? 0);
        expect(judgeFingers(on, shape, given, hand).fingering).toEqual(way);
      }
    }),
    { seed: SEED, numRuns: 200 },
  );
});

test('what the search leaves out, the judge of given fingers refuses with a reason', () => {
  const random = randomNumbers(SEED);
  for (let run = 0; run < 2000; run += 1) {
    const shape = randomShape(random, 4);
    const given = shape.map((at) => (at === 'muted' || at === 0 ? 0 : 1 + Math.floor(random() * 4)));
    const ways = fingeringsOf(HIGH_G, shape, 'medium').map(printFingers);
    const { fingering, faults } = judgeFingers(HIGH_G, shape, given, 'medium');
    expect(fingering !== undefined).toBe(ways.includes(given.join('')));
    if (fingering === undefined) expect(faults[0]?.message ?? '').not.toBe('');
  }
});

test('a longer scale never lowers the reach of a fingering, nor makes the first one easier to reach', () => {
  fc.assert(
    fc.property(held, hands, fc.integer({ min: 1, max: 120 }), ({ on, shape }, hand, more) => {
      const longer = { ...on, scaleLengthMm: on.scaleLengthMm + more };
      const short = fingeringsOf(on, shape, hand);
      const long = new Map(fingeringsOf(longer, shape, hand).map((way) => [printFingers(way), way]));
      for (const way of short) {
        const there = long.get(printFingers(way));
        expect(rank(there)).toBeGreaterThanOrEqual(rank(way));
        expect(there?.cost.reach ?? 0).toBeGreaterThanOrEqual(way.cost.reach - 1e-9);
      }
      expect(rank(fingeringsOf(longer, shape, hand)[0])).toBeGreaterThanOrEqual(rank(short[0]));
    }),
    { seed: SEED, numRuns: 200 },
  );
});

test('a bigger hand never loses a way to hold a shape and never gets a worse verdict', () => {
  const growing: readonly HandSize[] = ['child', 'small', 'medium', 'large'];
  fc.assert(
    fc.property(
      held,
      fc.integer({ min: 110, max: 280 }),
      fc.integer({ min: 1, max: 20 }),
      ({ on, shape }, spanMm, more) => {
        const pairs = [
          ...growing.slice(1).map((hand, at) => [growing[at] ?? hand, hand] as const),
          [{ spanMm }, { spanMm: spanMm + more }] as const,
        ];
        for (const [small, big] of pairs) {
          const bigger = fingeringsOf(on, shape, big);
          const byFingers = new Map(bigger.map((way) => [printFingers(way), way]));
          const smaller = fingeringsOf(on, shape, small);
          for (const way of smaller) {
            const there = byFingers.get(printFingers(way));
            expect(there).toBeDefined();
            expect(rank(there)).toBeLessThanOrEqual(rank(way));
          }
          if (smaller.length > 0) expect(rank(bigger[0])).toBeLessThanOrEqual(rank(smaller[0]));
        }
      },
    ),
    { seed: SEED, numRuns: 150 },
  );
});

test('moving a closed shape up the neck never lengthens its reach along the neck and never gets a worse verdict', () => {
  const closed = held.filter(({ shape }) => shape.every((at) => at !== 0));
  fc.assert(
    fc.property(closed, hands, fc.integer({ min: 1, max: 8 }), ({ on, shape }, hand, by) => {
      const up = shape.map((at) => (at === 'muted' ? at : at + by));
      const above = new Map(fingeringsOf(on, up, hand).map((way) => [printFingers(way), way]));
      const here = fingeringsOf(on, shape, hand);
      expect(above.size).toBe(here.length);
      for (const way of here) {
        const there = above.get(printFingers(way));
        expect(rank(there)).toBeLessThanOrEqual(rank(way));
        expect(there?.widest?.alongMm ?? 0).toBeLessThanOrEqual((way.widest?.alongMm ?? 0) + 1e-9);
      }
      expect(rank(fingeringsOf(on, up, hand)[0])).toBeLessThanOrEqual(rank(here[0]));
    }),
    { seed: SEED, numRuns: 200 },
  );
});

test('with a capo a shape is held as on the neck above it', () => {
  fc.assert(
    fc.property(held, hands, fc.integer({ min: 1, max: 7 }), ({ on, shape }, hand, capoFret) => {
      const ways = (of: Instrument) =>
        fingeringsOf(of, shape, hand).map((way) => `${printFingers(way)} ${way.verdict} ${way.cost.total.toFixed(6)}`);
      const capoed = withCapo(on, capoFret);
      expect(ways(neckAboveCapo(capoed))).toEqual(ways(capoed));
    }),
    { seed: SEED, numRuns: 50 },
  );
});

// The hand knows frets in chart order, not sides: a left-handed player's neck is strung the other way round, so that every string keeps
// its number, and nothing here may depend on which side it is on, or on what it sounds. The mirror is drawn by the diagram alone.
test('a neck strung the other way round is held with the same fingers', () => {
  fc.assert(
    fc.property(held, hands, ({ on, shape }, hand) => {
      const mirrored = { ...on, openStrings: [...on.openStrings].reverse() };
      expect(fingeringsOf(mirrored, shape, hand)).toEqual(fingeringsOf(on, shape, hand));
    }),
    { seed: SEED, numRuns: 100 },
  );
});

test('the search leaves what it is given as it was', () => {
  const shape = Object.freeze<Fret[]>([3, 2, 1, 1]) as Shape;
  const on = Object.freeze({ ...HIGH_G });
  expect(fingeringsOf(on, shape, 'medium')).toEqual(fingeringsOf(on, shape, 'medium'));
});
