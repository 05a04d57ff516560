import type { Rational } from '../theory/rational.ts';

/** One line of rhythm in a bar, in order, filling the bar without gap. */
export interface RhythmLine {
  readonly side: 'above' | 'below';
  readonly entries: readonly RhythmEntry[];
  readonly beams: readonly Beam[];
  readonly tuplets: readonly Tuplet[];
}

/** A written note or rest. Its written value, with dots and within its tuplet, is exactly its length. */
export interface RhythmEntry {
  /** From the start of the bar, and how long it sounds. Unit: whole notes. */
  readonly at: Rational;
  readonly length: Rational;
  /** `tied`: the sound of the entry before, or of the bar before, goes on. */
  readonly kind: 'attack' | 'tied' | 'rest';
  /** Written value: 4 is a quarter. */
  readonly value: NoteValue;
  readonly dots: 0 | 1 | 2;
  /** A tie leads to the next entry, or over the bar line. */
  readonly tiedOn: boolean;
  /** The left hand makes the sound: a hammer-on, pull-off or slide in a column of its own. */
  readonly slurredFrom?: true;
  /** The centred rest of an empty bar. Its value says nothing about its length. */
  readonly wholeBar?: boolean;
}

export type NoteValue = 1 | 2 | 4 | 8 | 16 | 32 | 64;

/** Entries `first` to `last` joined; `segments` are the further beams between them, `level` 2 for sixteenths. */
export interface Beam {
  readonly first: number;
  readonly last: number;
  readonly segments: readonly BeamSegment[];
}
export interface BeamSegment {
  readonly level: number;
  readonly first: number;
  readonly last: number;
  /** A short beam at a single entry, to that side. */
  readonly stub?: 'left' | 'right';
}

/** Entries `first` to `last` are `count` parts in the time of `inTimeOf` of the same value. */
export interface Tuplet {
  readonly first: number;
  readonly last: number;
  readonly count: number;
  readonly inTimeOf: number;
  /** True where no beam of their own holds them together. */
  readonly bracket: boolean;
}
