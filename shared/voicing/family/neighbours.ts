import { arcsBetween, type PlacedHands, placedHands } from '../../hand/change-arcs.ts';
import { placedHand } from '../../hand/change-between.ts';
import type { NeckInMm } from '../../hand/neck-in-mm.ts';
import type { Neighbours } from './best-ways.ts';
import type { Candidate } from './candidates.ts';
import { FAMILY_POINTS, LEAP_FRETS, STEP_SEMITONES } from './family-table.ts';
import { stringsThatDiffer } from './outline.ts';

/** What two neighbouring shapes cost. Unit: points. */
export interface NeighbourCost {
  readonly outline: number;
  readonly way: number;
  readonly change: number;
  readonly top: number;
}

/** What each of some shapes costs before each of others, and which way along the neck it goes. */
export function neighboursOf(neck: NeckInMm, before: readonly Candidate[], after: readonly Candidate[]): Neighbours {
  const efforts = arcsBetween(neck, handsOf(before), handsOf(after));
  const cost = new Float64Array(efforts.length);
  const direction = new Int8Array(efforts.length);
  let at = 0;
  for (const one of before) {
    for (const other of after) {
      const parts = neighbourCost(one, other, efforts[at] ?? 0);
      cost[at] = parts.outline + parts.way + parts.change + parts.top;
      direction[at] = directionOf(one, other);
      at += 1;
    }
  }
  return { cost, direction };
}

/** The same for two of them, in its parts. */
export function costBetween(neck: NeckInMm, one: Candidate, other: Candidate): NeighbourCost {
  return neighbourCost(one, other, arcsBetween(neck, handsOf([one]), handsOf([other]))[0] ?? 0);
}

/** 1 up the neck, −1 down, 0 where the hand stays or holds nothing. */
export function directionOf(one: Candidate, other: Candidate): -1 | 0 | 1 {
  const frets = fretsBetween(one, other);
  return frets > 0 ? 1 : frets < 0 ? -1 : 0;
}

function handsOf(candidates: readonly Candidate[]): PlacedHands {
  return placedHands(candidates.map(({ usual }) => placedHand(usual.presses)));
}

function neighbourCost(one: Candidate, other: Candidate, effort: number): NeighbourCost {
  const differing = FAMILY_POINTS.outlineDiffers;
  const strings = stringsThatDiffer(one.shape, other.shape);
  const outline = differing[Math.min(strings, differing.length - 1)] ?? 0;
  const frets = Math.abs(fretsBetween(one, other));
  const semitones = Math.abs(other.top - one.top);
  return {
    outline: outline + (one.sounds === other.sounds ? FAMILY_POINTS.nothingChanges : 0),
    way: frets * FAMILY_POINTS.fretOfWay + Math.max(0, frets - LEAP_FRETS) * FAMILY_POINTS.fretOfLeap,
    change: Math.round(effort * FAMILY_POINTS.changeEffort),
    top: Math.max(0, semitones - STEP_SEMITONES) * FAMILY_POINTS.semitoneOnTop,
  };
}

/** A hand that holds nothing is wherever it is needed next. */
function fretsBetween({ place: from }: Candidate, { place: to }: Candidate): number {
  return from === undefined || to === undefined ? 0 : to - from;
}
