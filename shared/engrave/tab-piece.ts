import type { Item } from './drawing.ts';
import { SIZES } from './sizes.ts';

/** The rows of a line of music from top to bottom. Word rows are one for each verse. */
export type Row =
  | 'tempo'
  | 'ending'
  | 'diagram'
  | 'name'
  | 'mark'
  | 'accent'
  | 'rhythm-above'
  | 'staff'
  | 'rhythm-below'
  | 'left-hand'
  | 'finger'
  | 'pattern'
  | 'count'
  | `word-${number}`
  | 'call';

/** Everything that a legend may have to explain. */
export type Sign =
  | 'down-stroke'
  | 'up-stroke'
  | 'slow-stroke'
  | 'partial-stroke'
  | 'damped-stroke'
  | 'light-stroke'
  | 'chunk'
  | 'roll'
  | 'shape-slide'
  | 'thumb-slap'
  | 'palm'
  | 'nails'
  | 'body'
  | 'stop-all'
  | 'stop-string'
  | 'accent'
  | 'rest-stroke'
  | 'tune'
  | 'held'
  | 'hammer-on'
  | 'pull-off'
  | 'slide'
  | 'bend'
  | 'vibrato'
  | 'trill'
  | 'harmonic'
  | 'picking-fingers'
  | 'left-hand-fingers'
  | 'assumed-name'
  | 'no-chord'
  | 'same-bar'
  | 'half-note-stem'
  | 'whole-note'
  | 'tuplet'
  | 'pattern-start';

/** A stretch of a string line left open, so that what stands on the string can be read. Counted from the piece's middle. */
export interface Opening {
  readonly string: number;
  readonly left: number;
  readonly right: number;
}

/**
 * What one moment puts into one row: items counted from the moment's place and from the row's baseline (in the staff: from the
 * first string), and how much room they take on both sides.
 */
export interface Piece {
  readonly row: Row;
  readonly left: number;
  readonly right: number;
  readonly items: readonly Item[];
  readonly openings?: readonly Opening[];
  /** Height of the row where it is more than usual, as for stacked finger letters. */
  readonly height?: number;
  /** A syllable whose word goes on: a hyphen follows, in the middle of the way to the next one. */
  readonly goesOn?: true;
  readonly signs?: readonly Sign[];
  /** The same value stands in other lines too, and will in those drawn after the next key. */
  readonly kept?: true;
}

/** The strings of a staff: string 1 on top, at 0. */
export interface Staff {
  readonly stringCount: number;
  /** From string 1 to the last one. Unit: mm. */
  readonly height: number;
  readonly y: (string: number) => number;
}

export function staffOf(stringCount: number): Staff {
  return {
    stringCount,
    height: (stringCount - 1) * SIZES.stringGap,
    y: (string) => (string - 1) * SIZES.stringGap,
  };
}

/** All string lines left open at a place. */
export function openAll(staff: Staff, left: number, right: number): readonly Opening[] {
  return Array.from({ length: staff.stringCount }, (_, index) => ({ string: index + 1, left, right }));
}
