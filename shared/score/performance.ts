import type { Layer } from './timeline.ts';

// What a player needs to play an exercise: plain data that goes over a wire or into a file. Whoever plays it chooses tempo, loop and feel.

/**
 * A time in ticks from the start of the music: as it is played where the feel swings, and as it is written. One number where both
 * are the same.
 */
export type Moment = number | readonly [played: number, even: number];

/** What the strings are made of, which decides how bright they are and how long they ring. */
export type StringMaterial = 'nylon' | 'steel';

/** How a string or a hand makes the sound. `slap` is the thumb on the strings, `muted` a string of a damped stroke. */
export type SoundKind =
  | 'pluck'
  | 'strum'
  | 'hammer-on'
  | 'pull-off'
  | 'slide'
  | 'harmonic'
  | 'muted'
  | 'chunk'
  | 'slap'
  | 'palm'
  | 'nails'
  | 'body';

/** A string's turn in a stroke over several. */
export interface StrokeTurn {
  /** From 0, in the order in which the hand meets them. */
  readonly nth: number;
  readonly of: number;
  readonly up?: true;
  readonly slow?: true;
  /** Of the whole stroke. Unit: ticks. */
  readonly length: number;
}

export interface PerformedSound {
  readonly at: Moment;
  /** When it is silent: the string is struck again, stopped, or needed elsewhere. */
  readonly end: Moment;
  /** The bar that it begins in, as an index into the bars of the performance. */
  readonly bar: number;
  readonly kind: SoundKind;
  /** 0 to 1; about 0.65 is usual. */
  readonly loudness: number;
  readonly layer: Layer;
  /** Absent where no single string sounds. */
  readonly string?: number;
  /** MIDI number of what sounds, capo and re-entrant strings counted. */
  readonly midi?: number;
  /** Where a slide begins. MIDI number. */
  readonly from?: number;
  /** How far the string is bent up while it sounds. Unit: semitones. */
  readonly bend?: number;
  readonly vibrato?: true;
  readonly stroke?: StrokeTurn;
}

/** A bar in its turn. */
export interface PerformedBar {
  readonly at: Moment;
  /** From 1: the time through the exercise. */
  readonly pass: number;
  /** Its place among the written bars of its pass, from 0. */
  readonly written: number;
  /** As printed; absent for a pickup. */
  readonly number?: number;
  /** Index into the meters of the performance. */
  readonly meter: number;
}

/** What is counted in bars of one kind. */
export interface PerformedMeter {
  /** The length that the tempo counts. Unit: ticks. */
  readonly beat: number;
  /** Beats from the start of the bar, in ticks, and whether each is the first of a bar. */
  readonly clicks: readonly Click[];
  /** What is clicked before music that begins with such a bar, and when the music begins. */
  readonly countIn: { readonly clicks: readonly Click[]; readonly length: Moment };
}

type Click = readonly [at: number, strong: boolean];

/** From here on this chord is held, until the next. */
export interface PerformedChord {
  readonly at: Moment;
  readonly bar: number;
  /** What the lesson calls it, and what is printed. Absent where no chord is played. */
  readonly held?: string;
  readonly name?: string;
}

export interface Performance {
  readonly title: string;
  /** Ticks in a whole note, so many that every time is a whole number. */
  readonly perWhole: number;
  readonly end: Moment;
  /** True where played and written times differ. */
  readonly swings: boolean;
  readonly hasTune: boolean;
  /** Beats a minute, one for each time through; the last goes on. More than one is a ladder. */
  readonly tempos: readonly number[];
  /** How often the whole is played where nobody loops it. */
  readonly times: number;
  /** What is to be said beside the controls, since playing along is practice. */
  readonly caution: string;
  readonly material: StringMaterial;
  /** MIDI numbers of the open strings, capo counted, string 1 first. */
  readonly open: readonly number[];
  readonly meters: readonly PerformedMeter[];
  readonly bars: readonly PerformedBar[];
  readonly chords: readonly PerformedChord[];
  /** By the moment they are played. */
  readonly sounds: readonly PerformedSound[];
}
