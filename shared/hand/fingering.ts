import type { Finger } from './finger.ts';
import type { ReachLimit } from './hand-model.ts';
import type { ReachVerdict } from './reach.ts';

/** One finger on the board. Several strings under one finger are a barre, whole or half. */
export interface Press {
  readonly finger: Finger;
  /** As the hand counts it: from the nut or the capo. */
  readonly fret: number;
  /** First and last string it stops, as places in chart order; the strings between are under the finger too. */
  readonly from: number;
  readonly to: number;
  /** How many strings it makes sound: what lies between and is stopped higher, or is not to sound, is not counted. */
  readonly sounding: number;
}

/** Two fingers, how far apart their tips are, and what this hand has for that pair. */
export interface PairReach {
  readonly pair: readonly [Finger, Finger];
  /** Tip to tip, as far as the fingers' bend does not take it up. Unit: mm. */
  readonly reachMm: number;
  /** The part of it that runs along the neck. Unit: mm. */
  readonly alongMm: number;
  /** From string to string, straight across the neck. Unit: mm. */
  readonly acrossMm: number;
  readonly limit: ReachLimit;
  readonly verdict: ReachVerdict;
}

/** What a fingering costs, in efforts; one more finger on the board is 1. Each part and the sum are nothing or more. */
export interface FingeringCost {
  /** Fingers drawn apart: grows with the distance, never falls. */
  readonly reach: number;
  /** Fingers on the board. */
  readonly fingers: number;
  /** Strength for fingers that lie over several strings. */
  readonly barre: number;
  /** Crowded or lifted fingers, and fingers that are not above their frets. */
  readonly awkwardness: number;
  /** Neighbouring fingers that changed places. */
  readonly reversed: number;
  readonly total: number;
}

/** A string that is not to sound, and the finger that keeps it silent by touching it, where one lies near. */
export interface SilentString {
  /** Place in chart order. */
  readonly stringIndex: number;
  /** True between two strings that sound, where the strumming hand cannot leave it out. */
  readonly inner: boolean;
  readonly by?: Finger;
}

/** What makes a fingering what it is, for a sentence that a teacher would say. Strings are places in chart order. */
export type FingeringReason =
  | { readonly kind: 'open-strings' }
  /** The finger lies across every string of the neck. */
  | { readonly kind: 'barre'; readonly press: Press }
  /** The finger lies across some strings only. */
  | { readonly kind: 'half-barre'; readonly press: Press }
  /** A barre whose finger bends up again, so that a string beside it, open or stopped lower, is free. */
  | { readonly kind: 'lifted-barre'; readonly press: Press; readonly overString: number }
  /** Fingers stand over the frets that are theirs when the index finger's is this one. */
  | { readonly kind: 'one-finger-a-fret'; readonly positionFret: number }
  /** Several tips in one fret space; crowded where the tips of this hand have no room beside each other. */
  | {
      readonly kind: 'side-by-side';
      readonly fret: number;
      readonly fingers: readonly Finger[];
      readonly crowded: boolean;
    }
  /** In one fret the higher finger stops the string nearer the bass side. */
  | { readonly kind: 'reversed'; readonly fret: number; readonly fingers: readonly [Finger, Finger] }
  | { readonly kind: 'stretch'; readonly reach: PairReach }
  | { readonly kind: 'thumb'; readonly press: Press }
  | { readonly kind: 'touches-silent-string'; readonly finger: Finger; readonly stringIndex: number }
  /** Nothing touches a string that is not to sound between strings that do. */
  | { readonly kind: 'silent-string-untouched'; readonly stringIndex: number };

/** One way to hold a shape. */
export interface Fingering {
  /** In chart order; nothing for a string that no finger makes sound. */
  readonly fingers: readonly (Finger | undefined)[];
  /** By fret, then from the bass side (the highest-numbered string); the thumb last. */
  readonly presses: readonly Press[];
  readonly cost: FingeringCost;
  /** The worst of all pairs of fingers. */
  readonly verdict: ReachVerdict;
  /** The pair that is nearest to its limit or farthest beyond; absent where fewer than two fingers press. */
  readonly widest?: PairReach;
  /** The index finger's own fret where the hand stands best, whether it presses or not; absent where no finger presses. */
  readonly positionFret?: number;
  readonly silent: readonly SilentString[];
  readonly reasons: readonly FingeringReason[];
}

/** What the player wishes of a fingering. */
export interface FingeringWishes {
  /** The thumb may stop the highest-numbered string. Without this it stays behind the neck. */
  readonly thumb?: boolean;
}

/** Why fingers that somebody gave cannot work. Codes: see `judgeFingers`. */
export interface FingerFault {
  readonly code: FingerFaultCode;
  /** One or two sentences as a teacher would say them. */
  readonly message: string;
  /** Strings it is about, as places in chart order. */
  readonly strings: readonly number[];
}

export type FingerFaultCode =
  | 'fingers.count'
  | 'fingers.not-a-finger'
  | 'fingers.missing'
  | 'fingers.on-open'
  | 'fingers.two-frets'
  | 'fingers.barre'
  | 'fingers.too-wide'
  | 'fingers.crossed'
  | 'fingers.thumb'
  | 'fingers.out-of-reach';
