import { arcRows, arcsBetween, type PlacedHands, placedHands } from '../../hand/change-arcs.ts';
import type { NeckInMm } from '../../hand/neck-in-mm.ts';
import { atOnce, type InSteps } from '../in-steps.ts';
import type { Candidate } from './candidates.ts';
import { FAMILY_POINTS, LEAP_FRETS, STEP_SEMITONES } from './family-table.ts';
import { differenceAt, outlineDifference, stoppedFrets } from './outline.ts';
import type { Neighbours } from './progression-in-numbers.ts';

/** What two neighbouring shapes cost. Unit: points. */
export interface NeighbourCost {
  readonly outline: number;
  readonly way: number;
  readonly change: number;
  readonly top: number;
}

/** What each of some shapes costs before each of others, and which way along the neck it goes. */
export function neighboursOf(neck: NeckInMm, before: readonly Candidate[], after: readonly Candidate[]): Neighbours {
  return atOnce(neighboursInSteps(neck, before, after));
}

/** So many pairs are compared in one step of the work. Unit: pairs; measured: about two milliseconds. */
const PAIRS_OF_STEP = 16_000;

/** The same, cut into steps. */
export function* neighboursInSteps(
  neck: NeckInMm,
  before: readonly Candidate[],
  after: readonly Candidate[],
): InSteps<Neighbours> {
  const cost = new Int32Array(before.length * after.length);
  const direction = new Int8Array(cost.length);
  const effortsOf = arcRows(neck, handsOf(before), handsOf(after));
  const [from, to] = [stoppedFrets(before.map(shapeOf)), stoppedFrets(after.map(shapeOf))];
  const strings = before[0]?.shape.length ?? 0;
  const rows = Math.max(1, Math.floor(PAIRS_OF_STEP / Math.max(1, after.length)));
  let at = 0;
  for (let first = 0; first < before.length; first += rows) {
    if (first > 0) yield;
    const end = Math.min(before.length, first + rows);
    const efforts = effortsOf(first, end);
    const start = at;
    for (let row = first; row < end; row += 1) {
      const one = before[row];
      if (one === undefined) continue;
      for (const [column, other] of after.entries()) {
        const frets = fretsBetween(one, other);
        cost[at] =
          differenceAt(from, row * strings, to, column * strings, strings) +
          costOfSound(one.sounds, other.sounds) +
          costOfWay(frets) +
          costOfChange(efforts[at - start] ?? 0) +
          costOfTop(one.top, other.top);
        direction[at] = Math.sign(frets ?? 0);
        at += 1;
      }
    }
  }
  return { cost, direction };
}

function shapeOf({ shape }: Candidate): Candidate['shape'] {
  return shape;
}

/** The same for two of them, in its parts. */
export function costBetween(neck: NeckInMm, one: Candidate, other: Candidate): NeighbourCost {
  const effort = arcsBetween(neck, handsOf([one]), handsOf([other]))[0] ?? 0;
  return {
    outline: outlineDifference(one.shape, other.shape) + costOfSound(one.sounds, other.sounds),
    way: costOfWay(fretsBetween(one, other)),
    change: costOfChange(effort),
    top: costOfTop(one.top, other.top),
  };
}

/** 1 up the neck, −1 down, 0 where the hand stays or holds nothing. */
export function directionOf(one: Candidate, other: Candidate): number {
  return Math.sign(fretsBetween(one, other) ?? 0);
}

function handsOf(candidates: readonly Candidate[]): PlacedHands {
  return placedHands(candidates.map(({ hand }) => hand));
}

/** By the pitch classes that sound. */
export function costOfSound(one: number, other: number): number {
  return one === other ? FAMILY_POINTS.nothingChanges : 0;
}

/** By the frets that the hand goes, nothing for one that holds nothing before or after. */
export function costOfWay(frets: number | undefined): number {
  if (frets === undefined) return 0;
  if (frets === 0) return FAMILY_POINTS.staysPut;
  const way = Math.abs(frets);
  return way * FAMILY_POINTS.fretOfWay + Math.max(0, way - LEAP_FRETS) * FAMILY_POINTS.fretOfLeap;
}

function costOfChange(effort: number): number {
  return Math.round(effort * FAMILY_POINTS.changeEffort);
}

/** By the highest notes that sound, as MIDI numbers. */
export function costOfTop(one: number, other: number): number {
  return Math.max(0, Math.abs(other - one) - STEP_SEMITONES) * FAMILY_POINTS.semitoneOnTop;
}

/** A hand that holds nothing is wherever it is needed next. */
function fretsBetween({ place: from }: Candidate, { place: to }: Candidate): number | undefined {
  return from === undefined || to === undefined ? undefined : to - from;
}
