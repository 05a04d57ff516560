import { type Finger, fingerRow } from './finger.ts';
import {
  BEND_SHARE,
  COVER_SHARES,
  END_JOINT_SHARE,
  FINGER_LENGTHS_MM,
  type HandMeasures,
  INDEX_MIDDLE_DEGREES,
  MIDDLE_RING_DEGREES,
  PAIR_SHARES,
  type PairShare,
  POOLED_HAND_LENGTH_MM,
  RING_LITTLE_DEGREES,
  THUMB_SHARE,
  TIP_WIDTH_MM,
} from './hand-table.ts';

/** How far two fingers can be apart along one string. Unit: mm. */
export interface ReachLimit {
  /** Up to here the hand keeps at ease. */
  readonly comfortableMm: number;
  /** Beyond this it does not reach. */
  readonly greatestMm: number;
}

/** What a hand can do on a neck, worked out once from its measures. Rows by finger: thumb, index, middle, ring, little. Unit: mm. */
export interface HandModel {
  /** By the lower and then the higher finger's row; nothing on and below the diagonal. */
  readonly limits: readonly (readonly (ReachLimit | undefined)[])[];
  /** Across how much of the board each finger lies flat. */
  readonly coverMm: readonly number[];
  /** The same with its middle bent up, so that an open string beside it rings. */
  readonly liftedCoverMm: readonly number[];
  /** How far from another finger's tip each can be across the strings by its bend alone. */
  readonly bendMm: readonly number[];
  readonly tipWidthMm: number;
}

/** How far each finger leans from the middle finger's line when the hand is spread, by row. Unit: radians, thumb's side below 0. */
const LEANS = [
  0,
  -radians(INDEX_MIDDLE_DEGREES),
  0,
  radians(MIDDLE_RING_DEGREES),
  radians(MIDDLE_RING_DEGREES + RING_LITTLE_DEGREES),
] as const;

const ROWS = [0, 1, 2, 3, 4] as const;
type Row = (typeof ROWS)[number];

/**
 * The hand as fingers use it on a neck. The flat hand is drawn first: neighbouring knuckles stand a quarter of the hand's breadth
 * apart, and each finger leans out by its greatest angles, counted from the middle finger. Fingers that press strings are bent, so
 * that each pair keeps a share of its distance. An estimate for a typical hand, from published hand measures; the shares are common
 * practice.
 */
export function modelOf({ lengthMm, breadthMm }: HandMeasures): HandModel {
  const scale = lengthMm / POOLED_HAND_LENGTH_MM;
  const knuckleMm = breadthMm / 4;
  const limits = ROWS.map((low) =>
    ROWS.map((high) => {
      const share = PAIR_SHARES[low]?.[high];
      if (share === undefined) return undefined;
      // The thumb stands across from the index finger; the other fingers' knuckles are that much farther along the neck.
      if (low === 0) return limitOf(THUMB_SHARE, scale * FINGER_LENGTHS_MM[0], (high - 1) * knuckleMm);
      return limitOf(share, flatReachMm(low, high, scale, knuckleMm), 0);
    }),
  );
  const shareOfLength = (share: number) => FINGER_LENGTHS_MM.map((length) => share * scale * length);
  return {
    limits,
    coverMm: COVER_SHARES.map((share, row) => share * scale * (FINGER_LENGTHS_MM[row] ?? 0)),
    liftedCoverMm: shareOfLength(END_JOINT_SHARE),
    bendMm: shareOfLength(BEND_SHARE),
    tipWidthMm: TIP_WIDTH_MM * scale,
  };
}

/** What the hand has for a pair of fingers, in either order; two different ones. */
export function pairLimit({ limits }: HandModel, one: Finger, other: Finger): ReachLimit {
  const low = Math.min(fingerRow(one), fingerRow(other));
  const high = Math.max(fingerRow(one), fingerRow(other));
  const limit = limits[low]?.[high];
  if (limit === undefined) throw new Error(`No reach from finger ${one} to finger ${other}.`);
  return limit;
}

function limitOf(share: PairShare, mm: number, besideMm: number): ReachLimit {
  return { comfortableMm: share.comfortable * mm + besideMm, greatestMm: share.greatest * mm + besideMm };
}

function flatReachMm(low: Row, high: Row, scale: number, knuckleMm: number): number {
  const across = (row: Row) => row * knuckleMm + scale * FINGER_LENGTHS_MM[row] * Math.sin(LEANS[row]);
  const along = (row: Row) => scale * FINGER_LENGTHS_MM[row] * Math.cos(LEANS[row]);
  return Math.hypot(across(high) - across(low), along(high) - along(low));
}

function radians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}
