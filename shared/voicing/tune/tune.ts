import type { TuneChord } from './ground.ts';
import type { InsideWay, OutsideWay } from './inside-way.ts';
import type { NoteOnNeck } from './notes-inside.ts';

/** A note of a tune: when, where on the neck, and with what finger. */
export interface TuneNote extends NoteOnNeck {
  /** Counted from 0. */
  readonly bar: number;
  /** From the bar's start; and how long it lasts. Unit: ticks. */
  readonly tick: number;
  readonly length: number;
  readonly chord: TuneChord;
  readonly way: InsideWay | OutsideWay;
}

/** A tune that was found. */
export interface Tune {
  readonly notes: readonly TuneNote[];
  /** Less is better. Unit: points. */
  readonly points: number;
  /** One line that says what it does. */
  readonly why: string;
}
