import { fingerRow } from './finger.ts';
import type { PairReach, Press } from './fingering.ts';
import { pairLimit, type ReachLimit } from './hand-model.ts';
import type { HeldShape } from './held-shape.ts';
import { judgeMm } from './reach.ts';

/**
 * How near a reach is to what the pair has: up to 1 at ease, up to 2 a stretch, more is out of reach. It grows with the reach and
 * never with the hand, so that pairs of different limits can be compared. Unit: none.
 */
export function strainOf(reachMm: number, { comfortableMm, greatestMm }: ReachLimit): number {
  return reachMm <= comfortableMm
    ? reachMm / comfortableMm
    : 1 + (reachMm - comfortableMm) / (greatestMm - comfortableMm);
}

/**
 * How far two pressing fingers are apart. Fingers that lie across strings count from the string that is nearest to the other's.
 * Across the strings nothing counts that bending one finger and straightening the other takes up.
 */
export function pairReach(held: HeldShape, one: Press, other: Press): PairReach {
  const alongMm = Math.abs((held.tipMm[other.from] ?? 0) - (held.tipMm[one.from] ?? 0));
  const acrossMm = stringsBetween(one, other) * Math.max(held.pitchMm[one.from] ?? 0, held.pitchMm[other.from] ?? 0);
  const reachMm = Math.hypot(alongMm, Math.max(0, acrossMm - bendMm(held, one, other)));
  const limit = pairLimit(held.model, one.finger, other.finger);
  const [low, high] = fingerRow(one.finger) < fingerRow(other.finger) ? [one, other] : [other, one];
  return {
    pair: [low.finger, high.finger],
    reachMm,
    alongMm,
    acrossMm,
    limit,
    verdict: judgeMm(reachMm, limit),
  };
}

/** The pair that is nearest to its limit, or farthest beyond; nothing where fewer than two fingers press. */
export function widestReach(held: HeldShape, presses: readonly Press[]): PairReach | undefined {
  let widest: PairReach | undefined;
  let strain = -1;
  for (let high = 1; high < presses.length; high += 1) {
    for (let low = 0; low < high; low += 1) {
      const one = presses[low];
      const other = presses[high];
      if (one === undefined || other === undefined) continue;
      const reach = pairReach(held, one, other);
      const here = strainOf(reach.reachMm, reach.limit);
      if (here <= strain) continue;
      widest = reach;
      strain = here;
    }
  }
  return widest;
}

function stringsBetween(one: Press, other: Press): number {
  return Math.max(0, one.from - other.to, other.from - one.to);
}

function bendMm({ model }: HeldShape, one: Press, other: Press): number {
  return Math.max(model.bendMm[fingerRow(one.finger)] ?? 0, model.bendMm[fingerRow(other.finger)] ?? 0);
}
