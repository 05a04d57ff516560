import type { Fingering } from '../../hand/fingering.ts';
import type { HandSize } from '../../hand/hand.ts';
import type { FingeredSequence } from '../../hand/sequence.ts';
import type { Instrument } from '../../neck/instrument.ts';
import type { Shape } from '../../neck/shape.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import type { Key } from '../../theory/key.ts';
import type { Role } from '../../theory/role.ts';
import type { Allowance } from './allowance.ts';

/** A progression that is to be played in shapes of one family. */
export interface FamilyRequest {
  /** With its capo: frets count from there, and chords are named as they are held. */
  readonly instrument: Instrument;
  /** 2 to 32, as they are played. A chord that comes again is held the same way. */
  readonly chords: readonly ChordSymbol[];
  /** Numbers of the strings (1 is nearest the floor) that ring open in every shape. */
  readonly ring?: readonly number[];
  /** Lowest and highest fret that may be stopped; open strings are free. The whole neck where nothing is said. */
  readonly within?: readonly [low: number, high: number];
  /** What may happen to the chords; nothing where nothing is said. */
  readonly allow?: Allowance;
  readonly pins?: readonly Pin[];
  /** Whose hand; the usual one where nothing is said. */
  readonly hand?: HandSize;
  /** Shapes that are harder are left out. Unit: points of difficulty, 0 to 10. */
  readonly hardest?: number;
  readonly key?: Key;
  /** Time from each chord to the next: it judges the changes, and chooses nothing. Unit: s. */
  readonly secondsPerChord?: number;
  /** At most so many families; 5 where nothing is said. */
  readonly count?: number;
}

/** A chord that is held so and not otherwise, wherever it comes. */
export interface Pin {
  readonly chord: ChordSymbol;
  readonly shape: Shape;
}

/** What a family costs. Unit: points, where one finger that differs between neighbours is 100. Each is nothing or more. */
export interface FamilyCost {
  /** Outlines that differ between neighbours, and neighbours that sound the same. */
  readonly outline: number;
  /** Way along the neck, leaps and turns. */
  readonly way: number;
  /** What the fingers do between neighbours, each held in its usual way. */
  readonly change: number;
  /** Leaps of the highest note. */
  readonly top: number;
  /** What is added to the chords and what they lack; silent strings and other basses. */
  readonly harmony: number;
  /** How hard the shapes are to hold, and how high up they lie. */
  readonly hold: number;
  /** The sum. */
  readonly total: number;
}

/** One chord of the progression in a family. */
export interface FamilyChord {
  /** As the progression has it. */
  readonly chord: ChordSymbol;
  /** What the shape is called where it stands: on the chord's own root where a musician might say so. */
  readonly as: string;
  /** The name that comes first for what sounds, where that is on another root: the Am7 that a C6 is too. */
  readonly also?: string;
  readonly shape: Shape;
  /** The fingers, chosen for the whole progression; absent where they cannot be. */
  readonly fingering?: Fingering;
  /** Tones beyond the chord that sound; where the third is missing, a 2 or 4 stands in its place. */
  readonly adds: readonly Role[];
  /** Tones of the chord that do not sound. */
  readonly omits: readonly Role[];
  /** The shape moved to the first fret: the same for shapes that look alike. */
  readonly outline: Shape;
  /** The lowest fret that is stopped; absent where none is. */
  readonly place?: number;
}

/** The whole progression in shapes that belong together. */
export interface Family {
  /** As many as were asked, in their order. */
  readonly chords: readonly FamilyChord[];
  readonly cost: FamilyCost;
  /** One line for a teacher: `same outline in 5 of 8 chords, strings 1 and 2 open throughout, moves down the neck from 7 to 2`. */
  readonly why: string;
  /** The fingers of the whole, with what they do in between. Where it is shown, `CAUTION_ON_STRETCH` belongs. */
  readonly fingered: FingeredSequence;
}

/** The best families, or why there is none. */
export type FamilyAnswer =
  | {
      readonly kind: 'families';
      /** Best first, at least one: each is the best of all that are different from those before it. */
      readonly families: readonly Family[];
      /** False where that was given up for want of time; they are families all the same. */
      readonly settled: boolean;
    }
  | {
      readonly kind: 'none';
      /** What stands in the way, a sentence or two for each chord that has no shape, and what would help. */
      readonly reasons: readonly string[];
    };
