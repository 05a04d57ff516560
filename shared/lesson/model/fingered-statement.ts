import type { FingeredSequence, SequenceChord } from '../../hand/sequence.ts';
import type { ResolvedChord } from './resolved-chord.ts';

/** A chord as an exercise comes to it. */
export interface PlayedChord {
  readonly chord: ResolvedChord;
  /** The number of the bar in which it is taken; absent in a pickup. */
  readonly bar?: number;
  readonly sequence: SequenceChord;
}

/** What an exercise or a progression plays, and the fingers chosen for the whole of it. */
export interface FingeredStatement {
  readonly title?: string;
  readonly chords: readonly PlayedChord[];
  /** As many chords, in the same order. */
  readonly fingered: FingeredSequence;
}
