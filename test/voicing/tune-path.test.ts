import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { changeOf } from '../../shared/hand/change-between.ts';
import { neededSecondsFor } from '../../shared/hand/change-speed.ts';
import { neckInMm } from '../../shared/hand/neck-in-mm.ts';
import { candidatesOver } from '../../shared/voicing/tune/candidates.ts';
import { chordsInHand, holdGround } from '../../shared/voicing/tune/ground.ts';
import { handLinks } from '../../shared/voicing/tune/hand-links.ts';
import {
  bestTunePath,
  type PathLink,
  type PathProblem,
  pointsOfPath,
  trendOf,
} from '../../shared/voicing/tune/tune-path.ts';
import { openProblem, problemWithLine } from '../../shared/voicing/tune/tune-problem.ts';
import { DIRECTION_POINTS } from '../../shared/voicing/tune/tune-table.ts';
import { SEED } from '../theory/reading.ts';
import { groundOf } from './tunes.ts';

/** Every choice of one candidate for each layer. */
function* choicesOf({ layers }: PathProblem): Generator<number[]> {
  const picks = layers.map(() => 0);
  for (;;) {
    yield [...picks];
    let at = layers.length - 1;
    while (at >= 0 && (picks[at] ?? 0) + 1 === (layers[at]?.points.length ?? 0)) picks[at--] = 0;
    if (at < 0) return;
    picks[at] = (picks[at] ?? 0) + 1;
  }
}

function bruteForce(problem: PathProblem): number {
  let best = Number.POSITIVE_INFINITY;
  for (const picks of choicesOf(problem)) best = Math.min(best, pointsOfPath(problem, picks));
  return best;
}

/** Notes as MIDI numbers with points of their own, joined by links that allow most pairs. */
const arbitraryProblem = fc
  .record({
    notes: fc.array(
      fc.array(fc.record({ midi: fc.integer({ min: 60, max: 72 }), points: fc.nat(9) }), {
        minLength: 1,
        maxLength: 4,
      }),
      {
        minLength: 2,
        maxLength: 6,
      },
    ),
    forbidden: fc.array(fc.boolean(), { minLength: 16, maxLength: 16 }),
    slopes: fc.array(fc.constantFrom(-1 as const, 0 as const, 1 as const), { minLength: 6, maxLength: 6 }),
    turns: fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }),
  })
  .map(({ notes, forbidden, slopes, turns }): PathProblem => {
    const links = notes.slice(1).map((later, at): PathLink => {
      const earlier = notes[at] ?? [];
      const pairs = earlier.flatMap((one, row) =>
        later.map((other, column) => {
          const closed = row + column > 0 && forbidden[(row * 4 + column + at) % 16] === true;
          const points = closed ? Number.POSITIVE_INFINITY : Math.abs(one.midi - other.midi) / 4;
          return { points, trend: trendOf(other.midi - one.midi) };
        }),
      );
      const follows = earlier.map((_, row) =>
        Uint16Array.from(later.keys()).filter((column) => Number.isFinite(pairs[row * later.length + column]?.points)),
      );
      return {
        points: Float64Array.from(pairs, ({ points }) => points),
        trends: Uint8Array.from(pairs, ({ trend }) => trend),
        follows,
        slope: slopes[at] ?? 0,
        mayTurn: turns[at] ?? false,
      };
    });
    return { layers: notes.map((layer) => ({ points: Float64Array.from(layer, ({ points }) => points) })), links };
  });

test('the hand from note to note: each change is what the hand model says of it', () => {
  const ground = groundOf('Em:0432 C:0003 Bb:3211');
  const held = holdGround(ground);
  if (!held.ok) throw new Error(held.message);
  const all = chordsInHand(held.stretches).map((inHand) => candidatesOver(ground, inHand));
  const neck = neckInMm(ground.instrument);
  let compared = 0;
  let worst = 0;
  for (const from of all) {
    for (const to of all) {
      const { effort, seconds } = handLinks(neck, from.hands, to.hands);
      for (const [row, before] of from.hands.hands.entries()) {
        for (const [column, after] of to.hands.hands.entries()) {
          const change = changeOf(neck, before, after);
          const at = row * to.hands.hands.length + column;
          const apart = Math.abs((effort[at] ?? -1) - change.cost.total);
          worst = Math.max(worst, apart, Math.abs((seconds[at] ?? -1) - neededSecondsFor(change)));
          compared += 1;
        }
      }
    }
  }
  expect(compared).toBeGreaterThan(1000);
  expect(worst).toBeLessThan(1e-9);
});

describe('the best path', () => {
  test('is the best of all choices, tried one by one', () => {
    fc.assert(
      fc.property(arbitraryProblem, (problem) => {
        const found = bestTunePath(problem);
        const best = bruteForce(problem);
        if (found === undefined) expect(best).toBe(Number.POSITIVE_INFINITY);
        else {
          expect(found.points).toBeCloseTo(best, 9);
          expect(pointsOfPath(problem, found.picks)).toBeCloseTo(best, 9);
        }
      }),
      { seed: SEED, numRuns: 800 },
    );
  });

  // Worked out by hand from the table: C D C turns and goes back to where it was; C D E does neither.
  test('counts a turn and a way back', () => {
    const line = (midi: readonly number[]): PathProblem => ({
      layers: midi.map(() => ({ points: new Float64Array(1) })),
      links: midi.slice(1).map((later, at) => ({
        points: new Float64Array(1),
        trends: Uint8Array.of(trendOf(later - (midi[at] ?? later))),
        follows: [Uint16Array.of(0)],
        slope: 0,
        mayTurn: false,
      })),
    });
    const cost = (...midi: readonly number[]) =>
      pointsOfPath(
        line(midi),
        midi.map(() => 0),
      );
    expect(cost(60, 62, 64)).toBe(0);
    expect(cost(60, 62, 60)).toBeCloseTo(DIRECTION_POINTS.turn + DIRECTION_POINTS.returns);
    expect(cost(60, 62, 61)).toBeCloseTo(DIRECTION_POINTS.turn);
    // A leap that is answered by a step back costs nothing; one that goes on does.
    expect(cost(60, 67, 65)).toBe(0);
    expect(cost(60, 67, 69)).toBeCloseTo(DIRECTION_POINTS.leapLeftOpen);
  });

  test('of a real tune: two bars, two notes each, every note and finger tried', () => {
    for (const written of ['Em:0432 C:0003', 'F:2010 C7:0001', 'D:2220 G:0232']) {
      const request = { ...groundOf(written), contour: 'arch' as const, rhythm: [0, 24], secondsPerCount: 0.75 };
      const ground = holdGround(request);
      if (!ground.ok) throw new Error(ground.message);
      const open = openProblem(request, ground.stretches);
      for (const lowest of [60, 64, 67]) {
        const problem = problemWithLine(open, lowest);
        const found = bestTunePath(problem);
        expect(problem.layers).toHaveLength(4);
        expect(found?.points).toBeCloseTo(bruteForceSkipping(problem), 9);
      }
    }
  });
});

/** The same as trying all, leaving out at once what may not stand anywhere. */
function bruteForceSkipping(problem: PathProblem): number {
  let best = Number.POSITIVE_INFINITY;
  const { layers } = problem;
  const go = (picks: number[]): void => {
    if (picks.length === layers.length) {
      best = Math.min(best, pointsOfPath(problem, picks));
      return;
    }
    for (const [at, points] of layers[picks.length]?.points.entries() ?? []) {
      if (Number.isFinite(points)) go([...picks, at]);
    }
  };
  go([]);
  return best;
}
