import { shiftEffort } from '../../hand/change-cost.ts';
import { CHANGE_EFFORT, HOVER_MM, TRAVEL_EFFORT_PER_MM } from '../../hand/change-table.ts';
import { fingerRow } from '../../hand/finger.ts';
import { handShift } from '../../hand/finger-move.ts';
import type { NeckInMm } from '../../hand/neck-in-mm.ts';
import type { Shape } from '../../neck/shape.ts';
import { atOnce, type InSteps } from '../in-steps.ts';
import type { Candidate } from './candidates.ts';
import { FAMILY_POINTS } from './family-table.ts';
import { costOfSound, costOfTop, costOfWay } from './neighbours.ts';
import { differenceAt, stoppedFrets } from './outline.ts';
import type { Neighbours } from './progression-in-numbers.ts';

/** Some shapes in columns, so that each is read once and thousands of pairs are compared without looking anything up. */
interface Columns {
  readonly count: number;
  /** The lowest stopped fret, 0 where none is. */
  readonly place: Int32Array;
  readonly sounds: Int32Array;
  readonly top: Int32Array;
  /** Fingers on the board, bit n for finger n; and their frets, bit n for fret n. */
  readonly fingers: Int32Array;
  readonly frets: Int32Array;
  /** The index finger's fret, 0 where the hand holds nothing. */
  readonly position: Int32Array;
  /** Which of the different outlines is its own. */
  readonly outline: Int32Array;
  readonly outlines: readonly Shape[];
}

const FINGER_SETS = 32;

/**
 * What neighbours cost at least, and which way it goes: all but the change of fingers as it is, and of that what can be told without
 * looking at each finger's way. So it is never more than `neighboursOf` says, and takes a fraction of the time.
 */
export function leastNeighboursOf(
  neck: NeckInMm,
  before: readonly Candidate[],
  after: readonly Candidate[],
): Neighbours {
  return atOnce(leastNeighboursInSteps(neck, before, after));
}

/** The same, cut into steps. */
export function* leastNeighboursInSteps(
  neck: NeckInMm,
  before: readonly Candidate[],
  after: readonly Candidate[],
): InSteps<Neighbours> {
  const from = columnsOf(before);
  yield;
  const to = columnsOf(after);
  yield;
  const outlines = yield* differencesOf(from.outlines, to.outlines);
  const shifts = shiftsOn(neck, [...from.position, ...to.position]);
  const cost = new Int32Array(from.count * to.count);
  const direction = new Int8Array(cost.length);
  const { place: places, sounds: tones, top: tops, fingers: sets, frets: fretSets, position, outline } = to;
  const unchanged = costOfSound(0, 0);
  let at = 0;
  const rows = Math.max(1, Math.floor(PAIRS_OF_STEP / Math.max(1, to.count)));
  for (let one = 0; one < from.count; one += 1) {
    if (one % rows === 0) yield;
    const place = from.place[one] ?? 0;
    const sounds = from.sounds[one] ?? 0;
    const top = from.top[one] ?? 0;
    const setRow = (from.fingers[one] ?? 0) * FINGER_SETS;
    const frets = from.frets[one] ?? 0;
    const shiftRow = (from.position[one] ?? 0) * shifts.width;
    const outlineRow = (from.outline[one] ?? 0) * to.outlines.length;
    for (let other = 0; other < to.count; other += 1) {
      const there = places[other] ?? 0;
      const holds = place !== 0 && there !== 0;
      const way = holds ? there - place : 0;
      const set = setRow + (sets[other] ?? 0);
      let sum =
        (outlines[outlineRow + (outline[other] ?? 0)] ?? 0) +
        (holds ? (WAY[way < 0 ? -way : way] ?? 0) : 0) +
        (TOP[Math.abs((tops[other] ?? 0) - top)] ?? 0) +
        (LANDS_AND_LIFTS[set] ?? 0);
      if (tones[other] === sounds) sum += unchanged;
      // Where no fret is common, no finger stays in its place: each moves, and the hand goes along.
      if ((frets & (fretSets[other] ?? 0)) === 0) {
        sum += (ALL_MOVE[set] ?? 0) + (shifts.points[shiftRow + (position[other] ?? 0)] ?? 0);
      }
      cost[at] = sum;
      direction[at] = way > 0 ? 1 : way < 0 ? -1 : 0;
      at += 1;
    }
  }
  return { cost, direction };
}

/** So many pairs are compared in one step of the work. Unit: pairs; measured: about two milliseconds. */
const PAIRS_OF_STEP = 100_000;
const OUTLINES_OF_STEP = 20_000;

/** What every outline of some differs by from every one of others, at `one * others + other`. Unit: points. */
function* differencesOf(ones: readonly Shape[], others: readonly Shape[]): InSteps<Int32Array> {
  const strings = ones[0]?.length ?? 0;
  const [from, to] = [stoppedFrets(ones), stoppedFrets(others)];
  const points = new Int32Array(ones.length * others.length);
  for (let pair = 0, one = 0; one < from.length; one += strings) {
    for (let other = 0; other < to.length; other += strings) {
      points[pair] = differenceAt(from, one, to, other, strings);
      pair += 1;
      if (pair % OUTLINES_OF_STEP === 0) yield;
    }
  }
  return points;
}

/** No neck has more frets, and no MIDI number is higher. */
const MOST_FRETS = 40;
const MOST_SEMITONES = 128;

/** What so many frets of way and so many semitones on top cost. Unit: points. */
const WAY = Int32Array.from({ length: MOST_FRETS }, (_, frets) => costOfWay(frets));
const TOP = Int32Array.from({ length: MOST_SEMITONES }, (_, semitones) => costOfTop(0, semitones));

/** By the fingers before and after, at `before * FINGER_SETS + after`: what those cost that come down or let go. Unit: points. */
const LANDS_AND_LIFTS = fingerSets(
  (before, after) =>
    fingersIn(after & ~before) * (CHANGE_EFFORT.lands + HOVER_MM * TRAVEL_EFFORT_PER_MM.throughAir) +
    fingersIn(before & ~after) * CHANGE_EFFORT.lifts,
);

/** The same for those that press before and after, each in another fret: at least they slide. Unit: points. */
const ALL_MOVE = fingerSets((before, after) => fingersIn(before & after) * CHANGE_EFFORT.slides);

function fingerSets(effort: (before: number, after: number) => number): Int32Array {
  return Int32Array.from({ length: FINGER_SETS * FINGER_SETS }, (_, sets) =>
    pointsAtMost(effort(Math.floor(sets / FINGER_SETS), sets % FINGER_SETS)),
  );
}

/** Rounded down, so that parts that are added up are no more than the whole. */
function pointsAtMost(effort: number): number {
  return Math.floor(effort * FAMILY_POINTS.changeEffort);
}

function fingersIn(set: number): number {
  let count = 0;
  for (let rest = set; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}

/** What the way of the hand costs between any two of its places, at `from * width + to`. Unit: points. */
function shiftsOn(
  neck: NeckInMm,
  positions: readonly number[],
): { readonly width: number; readonly points: Int32Array } {
  const width = Math.max(0, ...positions) + 1;
  const points = new Int32Array(width * width);
  for (let from = 1; from < width; from += 1) {
    for (let to = 1; to < width; to += 1)
      points[from * width + to] = pointsAtMost(shiftEffort(handShift(neck, from, to)));
  }
  return { width, points };
}

/** A list is compared with each of its neighbours: its columns are kept as long as somebody holds on to it. */
const keptColumns = new WeakMap<readonly Candidate[], Columns>();

function columnsOf(candidates: readonly Candidate[]): Columns {
  const known = keptColumns.get(candidates) ?? inColumns(candidates);
  keptColumns.set(candidates, known);
  return known;
}

function inColumns(candidates: readonly Candidate[]): Columns {
  const column = (value: (candidate: Candidate) => number) => Int32Array.from(candidates, value);
  const known = new Map<string, number>();
  const outlines: Shape[] = [];
  const outline = column((candidate) => {
    const before = known.get(candidate.outline);
    if (before !== undefined) return before;
    known.set(candidate.outline, outlines.length);
    return outlines.push(candidate.shape) - 1;
  });
  return {
    count: candidates.length,
    place: column(({ place }) => place ?? 0),
    sounds: column(({ sounds }) => sounds),
    top: column(({ top }) => top),
    fingers: column(({ usual }) => usual.presses.reduce((set, { finger }) => set | (1 << fingerRow(finger)), 0)),
    frets: column(({ usual }) => usual.presses.reduce((set, { fret }) => set | (1 << fret), 0)),
    position: column(({ hand }) => hand.positionFret ?? 0),
    outline,
    outlines,
  };
}
