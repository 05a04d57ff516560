import type { NeckInMm } from '../../hand/neck-in-mm.ts';
import type { InSteps } from '../in-steps.ts';
import type { Candidate } from './candidates.ts';
import { leastNeighboursInSteps } from './least-neighbours.ts';
import { neighboursInSteps } from './neighbours.ts';
import type { Neighbours } from './progression-in-numbers.ts';

/** Lists of fewer pairs are compared in full, which is then kept; of longer ones only what promises something is. Unit: pairs. */
const MOST_COMPARED = 20_000;

/**
 * What two lists cost beside each other, kept as long as somebody holds on to both: a progression that is asked about again, with
 * another pin or another number of families, has the same lists.
 */
const kept = new WeakMap<readonly Candidate[], WeakMap<readonly Candidate[], Neighbours>>();

/** For all of two lists: what neighbours cost, or at least cost where the lists are long. Cut into steps. */
export function* leastKept(
  neck: NeckInMm,
  before: readonly Candidate[],
  after: readonly Candidate[],
): InSteps<Neighbours> {
  return isCompared(before, after)
    ? yield* comparedKept(neck, before, after)
    : yield* leastNeighboursInSteps(neck, before, after);
}

/** For some places of two lists, what neighbours cost. Cut into steps. */
export function* neighboursAt(
  neck: NeckInMm,
  [before, places]: readonly [list: readonly Candidate[], places: Int32Array],
  [after, otherPlaces]: readonly [list: readonly Candidate[], places: Int32Array],
): InSteps<Neighbours> {
  if (!isCompared(before, after))
    return yield* neighboursInSteps(neck, picked(before, places), picked(after, otherPlaces));
  const all = yield* comparedKept(neck, before, after);
  const cost = new Int32Array(places.length * otherPlaces.length);
  const direction = new Int8Array(cost.length);
  let at = 0;
  for (const one of places) {
    for (const other of otherPlaces) {
      cost[at] = all.cost[one * after.length + other] ?? 0;
      direction[at] = all.direction[one * after.length + other] ?? 0;
      at += 1;
    }
  }
  return { cost, direction };
}

function isCompared(before: readonly Candidate[], after: readonly Candidate[]): boolean {
  return before.length * after.length <= MOST_COMPARED;
}

function* comparedKept(neck: NeckInMm, before: readonly Candidate[], after: readonly Candidate[]): InSteps<Neighbours> {
  const ofBefore = kept.get(before) ?? new WeakMap<readonly Candidate[], Neighbours>();
  kept.set(before, ofBefore);
  const known = ofBefore.get(after) ?? (yield* neighboursInSteps(neck, before, after));
  ofBefore.set(after, known);
  return known;
}

function picked(list: readonly Candidate[], places: Int32Array): readonly Candidate[] {
  return Array.from(places).flatMap((place) => list[place] ?? []);
}
