import type { Shape } from '../neck/shape.ts';
import type { Change } from './change.ts';
import type { JudgedChange } from './change-speed.ts';
import type { StringSpare } from './change-time.ts';
import type { Fingering, FingeringWishes } from './fingering.ts';

/** One chord of a sequence that is to be fingered. */
export interface SequenceChord {
  readonly shape: Shape;
  /** Fingers that the lesson gives, in chart order, 0 where no finger is: they are kept, whatever it costs. */
  readonly given?: readonly (number | 'T')[];
  /**
   * Time for the change to the next chord: from the last stroke on this one to the first on that one. The whole time until the next
   * chord where no stroke is known. Absent where there is no tempo. Unit: s.
   */
  readonly seconds?: number;
  /**
   * What single strings give the fingers beyond that, in chart order; absent where all strings have the same time, as in strums, or
   * no stroke is known.
   */
  readonly strings?: readonly StringSpare[];
}

export interface SequenceOptions extends FingeringWishes {
  /** The last chord leads to the first again. */
  readonly repeats?: boolean;
}

export interface HeldChord {
  readonly kind: 'held';
  readonly shape: Shape;
  readonly fingering: Fingering;
}

/** A chord that the sequence goes past, because it cannot be held; the chord before it leads to the one after it. */
export interface SkippedChord {
  readonly kind: 'skipped';
  readonly shape: Shape;
  /** The given fingers cannot work; four fingers are not enough, however they lie; or all ways are too wide for this hand. */
  readonly why: 'given-fingers' | 'too-few-fingers' | 'out-of-reach';
  /** As a teacher would say it; with the caution where it is about a stretch. */
  readonly message: string;
}

export interface SequenceChange {
  /** Places in the sequence of the chord left and the chord taken. */
  readonly from: number;
  readonly to: number;
  readonly change: Change;
  /** Absent where no time is known. */
  readonly speed?: JudgedChange;
}

/** A sequence with the fingers chosen for the whole of it. */
export interface FingeredSequence {
  /** As many as were asked, in their order. */
  readonly chords: readonly (HeldChord | SkippedChord)[];
  /** Between each chord held and the next one held; with `repeats` the last of them goes back to the first. */
  readonly changes: readonly SequenceChange[];
  /** Stretched fingerings: no choice of fingers has fewer. */
  readonly stretches: number;
  /** Of all changes and, weighed with `FINGERING_WEIGHT`, all fingerings; no choice with so few stretches has less. Unit: effort. */
  readonly effort: number;
}
