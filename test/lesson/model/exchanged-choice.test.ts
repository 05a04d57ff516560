import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type ChoiceProblem, exchangedChoice } from '../../../shared/lesson/model/exchanged-choice.ts';
import { weighedShapes } from '../../../shared/lesson/model/moved-shapes.ts';
import { printShape } from '../../../shared/neck/shape.ts';
import { editionsIn, heldThere } from './on-edition.ts';

function sumOf({ sizes, alone, pairs, between }: ChoiceProblem, choice: readonly number[]): number {
  const single = sizes.reduce((sum, _, thing) => sum + alone(thing, choice[thing] ?? 0), 0);
  return pairs.reduce((sum, [a, b], pair) => sum + between(pair, choice[a] ?? 0, choice[b] ?? 0), single);
}

/** The least sum of all, by trying every choice. */
function leastByTrying(problem: ChoiceProblem): number {
  const choices = problem.sizes.reduce<readonly (readonly number[])[]>(
    (all, size) => all.flatMap((one) => Array.from({ length: size }, (_, choice) => [...one, choice])),
    [[]],
  );
  return Math.min(...choices.map((choice) => sumOf(problem, choice)));
}

const ROOTS = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'] as const;
const KINDS = ['', 'm', '7', 'm7', 'maj7', 'sus4'] as const;

/** Progressions of four to six different chords, the last of them going back to the first. */
const WALKS = fc.sample(
  fc.uniqueArray(
    fc.tuple(fc.constantFrom(...ROOTS), fc.constantFrom(...KINDS)).map(([root, kind]) => root + kind),
    { minLength: 4, maxLength: 6 },
  ),
  { seed: 7, numRuns: 12 },
);

test('shapes that are moved together are nearly always the best of all, and never far from it', () => {
  const beyond: number[] = [];
  for (const other of ['baritone ukulele', 'guitar', 'tenor ukulele, D tuning']) {
    for (const chords of WALKS) {
      const [own, there] = editionsIn(
        `also ${other}, same key, called there\nprogression v\n  | ${[...chords, chords[0]].join(' | ')} |\n`,
      );
      if (there === undefined) throw new Error('There is no further edition.');
      const moved = chords.map((text) => {
        const chord = heldThere(own, text);
        if (chord === undefined) throw new Error(`There is no ${text}.`);
        return { text, symbol: chord.symbol, shape: chord.shape, labelled: false };
      });
      const pairs = chords.map((chord, at): [string, string] => [chord, chords[(at + 1) % chords.length] ?? chord]);
      const asked = { own: own.edition().instrument, hand: own.setting('hand'), chords: moved, pairs };
      const { chords: weighed, problem } = weighedShapes(there.edition().instrument, asked);
      // What the edition holds, as choices of what was weighed.
      const held = weighed.map(({ text, shapes }) => {
        const shape = printShape(heldThere(there, text)?.shape ?? []);
        return shapes.findIndex((one) => printShape(one) === shape);
      });
      expect(held.every((choice) => choice >= 0)).toBe(true);
      const least = leastByTrying(problem);
      beyond.push(sumOf(problem, held) / least - 1);
    }
  }
  expect(beyond).toHaveLength(36);
  const best = beyond.filter((share) => share < 1e-9).length;
  expect(best / beyond.length).toBeGreaterThanOrEqual(0.95);
  expect(Math.max(...beyond)).toBeLessThan(0.03);
});

/** Costs made by chance hang together far more than the changes between chords do. */
const PROBLEMS = fc
  .record({
    sizes: fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 6 }),
    costs: fc.array(fc.nat(30), { minLength: 64, maxLength: 64 }),
    pairs: fc.array(fc.tuple(fc.nat(5), fc.nat(5)), { maxLength: 10 }),
  })
  .map(({ sizes, costs, pairs }): ChoiceProblem => {
    const cost = (at: number) => costs[at % costs.length] ?? 0;
    return {
      sizes,
      alone: (thing, choice) => cost(thing * 7 + choice * 3),
      pairs: pairs
        .filter(([a, b]) => a !== b && a < sizes.length && b < sizes.length)
        .map(([a, b]): [number, number] => [a, b]),
      between: (pair, first, second) => cost(pair * 11 + first * 5 + second * 13 + 1),
    };
  });

test('whatever it costs, no exchange of a single choice makes the sum less', () => {
  fc.assert(
    fc.property(PROBLEMS, (problem) => {
      const chosen = exchangedChoice(problem);
      const sum = sumOf(problem, chosen);
      expect(sum).toBeGreaterThanOrEqual(leastByTrying(problem));
      for (const [thing, size] of problem.sizes.entries()) {
        for (let choice = 0; choice < size; choice += 1) {
          expect(sumOf(problem, chosen.with(thing, choice))).toBeGreaterThanOrEqual(sum);
        }
      }
    }),
    { seed: 7, numRuns: 300 },
  );
});
