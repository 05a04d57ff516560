import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bestWays, type HeldWay } from '../../shared/voicing/family/best-ways.ts';
import type { Neighbours, ProgressionInNumbers } from '../../shared/voicing/family/progression-in-numbers.ts';
import { SEED } from '../theory/reading.ts';

/** A progression of invented numbers, written out so that every way through it can be reckoned by hand. */
interface Invented {
  readonly chordOf: readonly number[];
  readonly own: readonly (readonly number[])[];
  /** By chord and choice: where on the neck it lies, whom it is alike, and which shape it is. */
  readonly place: readonly (readonly number[])[];
  readonly likeness: readonly (readonly number[])[];
  readonly shape: readonly (readonly number[])[];
  /** What each pair of places, of two chords, costs beyond the way. */
  readonly between: (from: number, one: number, to: number, other: number) => number;
  readonly turn: number;
  readonly leastDifferent: number;
}

const choices = fc.array(fc.record({ own: fc.nat(9), place: fc.nat(4), likeness: fc.nat(2), shape: fc.nat(30) }), {
  minLength: 1,
  maxLength: 11,
});

const invented: fc.Arbitrary<Invented> = fc
  .record({
    chords: fc.array(choices, { minLength: 1, maxLength: 3 }),
    order: fc.array(fc.nat(3), { minLength: 1, maxLength: 7 }),
    salt: fc.nat(1000),
    turn: fc.nat(5),
    leastDifferent: fc.integer({ min: 1, max: 2 }),
  })
  .map(({ chords, order, salt, turn, leastDifferent }) => {
    const wanted = order.map((chord) => chord % chords.length);
    // Every chord comes once at least, so that each has a place where it is first held.
    const chordOf = [...chords.keys(), ...wanted].filter((chord, at, all) => chord !== all[at - 1]);
    return {
      chordOf,
      own: chords.map((list) => list.map(({ own }) => own)),
      place: chords.map((list) => list.map(({ place }) => place)),
      likeness: chords.map((list) => list.map(({ likeness }) => likeness)),
      shape: chords.map((list) => list.map(({ shape }) => shape)),
      between: (from, one, to, other) => (salt * (from + 3) * (one + 7) + (to + 11) * (other + 5) * (salt + 13)) % 10,
      turn,
      leastDifferent,
    };
  });

const at = <T>(list: readonly T[] | undefined, place: number): T => {
  const found = list?.[place];
  if (found === undefined) throw new Error('no such choice');
  return found;
};

function inNumbers(told: Invented): ProgressionInNumbers {
  const compared = (from: number, ones: readonly number[], to: number, others: readonly number[], share: number) => {
    const cost = ones.flatMap((one) => others.map((other) => Math.floor(share * told.between(from, one, to, other))));
    const direction = ones.flatMap((one) =>
      others.map((other) => Math.sign(at(told.place[to], other) - at(told.place[from], one))),
    );
    return { cost: Int32Array.from(cost), direction: Int8Array.from(direction) } satisfies Neighbours;
  };
  const all = (chord: number) => [...(told.own[chord] ?? []).keys()];
  return {
    chordOf: told.chordOf,
    times: told.chordOf.map(() => 1),
    own: told.own.map((costs) => Float64Array.from(costs)),
    *between(from, to) {
      yield;
      return compared(from.chord, [...from.choices], to.chord, [...to.choices], 1);
    },
    *leastBetween(from, to) {
      yield;
      return compared(from, all(from), to, all(to), 0.5);
    },
    turn: told.turn,
    alike: (chord, one, other) => at(told.likeness[chord], one) === at(told.likeness[chord], other),
    excludes: (chord, choice, other, otherChoice) =>
      at(told.shape[chord], choice) === at(told.shape[other], otherChoice),
    leastDifferent: told.leastDifferent,
  };
}

/** Every way to hold the progression, reckoned one after another. */
function everyWay(told: Invented): readonly HeldWay[] {
  let held: readonly (readonly number[])[] = [[]];
  for (const costs of told.own) held = held.flatMap((begun) => [...costs.keys()].map((choice) => [...begun, choice]));
  return held
    .filter((way) => {
      const shapes = way.map((choice, chord) => at(told.shape[chord], choice));
      return new Set(shapes).size === shapes.length;
    })
    .map((way) => ({ choices: way, cost: costOf(told, way) }));
}

function costOf({ chordOf, own, place, between, turn }: Invented, way: readonly number[]): number {
  let cost = 0;
  let heading = 0;
  for (const [step, chord] of chordOf.entries()) {
    cost += at(own[chord], at(way, chord));
    if (step === 0) continue;
    const before = at(chordOf, step - 1);
    cost += between(before, at(way, before), chord, at(way, chord));
    const direction = Math.sign(at(place[chord], at(way, chord)) - at(place[before], at(way, before)));
    if (direction !== 0 && heading !== 0 && direction !== heading) cost += turn;
    if (direction !== 0) heading = direction;
  }
  return cost;
}

function areDifferent(told: Invented, one: HeldWay, other: HeldWay): boolean {
  const differing = one.choices.filter(
    (choice, chord) => at(told.likeness[chord], choice) !== at(told.likeness[chord], at(other.choices, chord)),
  );
  return differing.length >= told.leastDifferent;
}

test('each way is the best of all that differ from those before it, against every way there is', () => {
  fc.assert(
    fc.property(invented, (told) => {
      const every = everyWay(told);
      const { ways, settled } = bestWays(inNumbers(told), 4);
      expect(settled).toBe(true);
      for (const [rank, way] of ways.entries()) {
        const left = every.filter((one) => ways.slice(0, rank).every((before) => areDifferent(told, before, one)));
        expect(way.cost).toBe(Math.min(...left.map(({ cost }) => cost)));
        expect(costOf(told, way.choices)).toBe(way.cost);
        expect(left.map(({ choices: other }) => other.join(' '))).toContain(way.choices.join(' '));
      }
      if (ways.length < 4) {
        expect(every.filter((one) => ways.every((way) => areDifferent(told, way, one)))).toEqual([]);
      }
    }),
    { seed: SEED, numRuns: 500 },
  );
});

test('where the work is given up it says so, and what it has is a way all the same', () => {
  const [told] = fc.sample(invented, { seed: SEED + 1, numRuns: 1 });
  if (told === undefined) throw new Error('no sample');
  const { ways, settled } = bestWays(inNumbers(told), 4, 0);
  expect(settled).toBe(false);
  for (const way of ways) expect(costOf(told, way.choices)).toBe(way.cost);
});

test('a chord without a shape has no way', () => {
  const none = inNumbers({
    chordOf: [0, 1],
    own: [[1], []],
    place: [[1], []],
    likeness: [[1], []],
    shape: [[1], []],
    between: () => 0,
    turn: 0,
    leastDifferent: 1,
  });
  expect(bestWays(none, 3)).toEqual({ ways: [], settled: true });
});
