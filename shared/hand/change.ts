import type { Press } from './fingering.ts';

/** What one finger does between two fingerings. Distances are of its tip; `roomMm` is the room it must hit. Unit: mm. */
export type FingerMove =
  /** The anchor: same strings, same fret. */
  | { readonly kind: 'stays'; readonly from: Press; readonly to: Press }
  /**
   * `slides` is the guide: same strings, other fret. `rolls`: in its fret, laid flat over more strings or got up again.
   * `moves`: taken away and put down elsewhere.
   */
  | {
      readonly kind: 'slides' | 'rolls' | 'moves';
      readonly from: Press;
      readonly to: Press;
      readonly distanceMm: number;
      readonly roomMm: number;
    }
  | { readonly kind: 'lands'; readonly to: Press; readonly distanceMm: number; readonly roomMm: number }
  | { readonly kind: 'lifts'; readonly from: Press; readonly distanceMm: number };

/** The whole hand goes along the neck: the frets, as the hand counts them, that are the index finger's before and after. Unit: mm. */
export interface HandShift {
  readonly fromFret: number;
  readonly toFret: number;
  readonly distanceMm: number;
  readonly roomMm: number;
}

/** What the hand does between two fingerings on one instrument. */
export interface Change {
  /** Each finger that presses before or after, index to little finger, then the thumb. */
  readonly moves: readonly FingerMove[];
  /** Absent where the hand keeps its place, where a finger that stays holds it, or where nothing presses before or after. */
  readonly shift?: HandShift;
  readonly cost: ChangeCost;
}

/** What a change costs, in efforts; one more finger on the board is 1. Each part and the sum are nothing or more. */
export interface ChangeCost {
  /** Fingers that lift, slide, roll, land and move. */
  readonly fingers: number;
  /** The ways they go: grows with the distance, never falls. */
  readonly travel: number;
  /** The whole hand along the neck. */
  readonly shift: number;
  readonly total: number;
}
