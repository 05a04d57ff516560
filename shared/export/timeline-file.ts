import type { HitPlace, PickFinger, Technique } from '../lesson/syntax/marks.ts';
import type { SoundKind } from '../score/performance.ts';
import type { Layer } from '../score/timeline.ts';

/**
 * What a timeline file holds. Names of fields stay as they are within a version; further ones may be added.
 *
 * Times and lengths are exact fractions of a whole note, written `3/8` or `2`. Places of bars' contents count from the start of their
 * bar. Strings are numbered from 1, nearest the floor; frets count from the capo. `line` is the line of the lesson's text, from 1, that
 * something comes from.
 */
export interface TimelineFile {
  readonly format: 'handspan-timeline';
  readonly version: 1;
  readonly lesson: { readonly title: string; readonly by?: string };
  /** Name of the edition, whose own instrument is below. */
  readonly edition: string;
  /** `number` is its place among the exercises of the lesson, from 1. */
  readonly exercise: { readonly number: number; readonly title: string; readonly aim?: string };
  readonly instrument: {
    readonly name: string;
    /** The capo's fret, 0 without one. */
    readonly capo: number;
    /** Open strings, string 1 first: `pitch` without the capo, `midi` with it. */
    readonly strings: readonly { readonly string: number; readonly pitch: string; readonly midi: number }[];
  };
  /** The key of the shapes in the hand, and the one that is heard. */
  readonly key?: { readonly held: string; readonly sounding: string };
  /** Of a pair of notes the first lasts `long` parts to `short` of the second; `unit` 8 for eighths. Without `unit` all are even. */
  readonly feel: { readonly long: number; readonly short: number; readonly unit?: number };
  /** Beats a minute, or notes of `unit` where that is given. `everyTimes`: so many times through to a step. Null: the lesson says none. */
  readonly tempo: {
    readonly from: number;
    readonly to: number;
    readonly by?: number;
    readonly everyTimes?: number;
    readonly unit?: number;
  } | null;
  /** Times through the music that differ in their patterns; bars as they are written, each once. */
  readonly passes: readonly {
    readonly pass: number;
    readonly patterns: readonly string[];
    readonly bars: readonly TimelineBar[];
  }[];
  readonly played: TimelinePlayed;
}

export interface TimelineBar {
  /** As printed; null for a pickup. */
  readonly number: number | null;
  readonly meter: string;
  readonly length: string;
  readonly opensRepeat: boolean;
  /** The bar line at its end; one that begins with a colon repeats. */
  readonly closes: string;
  /** How often the repeat that ends here is played in all, where that is not twice. */
  readonly times?: number;
  /** Numbers of the ending that the bar belongs to. */
  readonly ending?: readonly number[];
  readonly line: number;
  readonly chords: readonly TimelineChord[];
  /** What is said aloud. */
  readonly count: readonly { readonly at: string; readonly text: string }[];
  readonly events: readonly TimelineEvent[];
  /** What is sung; a syllable that ends in a hyphen leads on. */
  readonly words: readonly { readonly at: string; readonly text: string; readonly verse: number }[];
  /** What the teacher calls out. */
  readonly calls: readonly { readonly at: string; readonly text: string }[];
}

export interface TimelineChord {
  readonly at: string;
  readonly length: string;
  readonly line: number;
  /** Null where no chord is played. */
  readonly name: string | null;
  /** Highest-numbered string first, null for a string that is not played. */
  readonly frets: readonly (number | null)[] | null;
  /** Where the lesson gives them, in the same order; 0 for a string that no finger stops. */
  readonly fingers?: readonly (number | 'T')[];
}

/** A string as it is struck. */
export interface TimelineNote {
  readonly string: number;
  readonly fret: number;
  /** MIDI number, capo counted. */
  readonly midi: number | null;
  /** What the left hand does to it at once, in order. */
  readonly techniques?: readonly Technique[];
  /** Of the picking hand. */
  readonly finger?: PickFinger;
  readonly leftFinger?: number | 'T';
  /** How the left hand alone makes the sound, and the fret that it comes from. */
  readonly arrivesBy?: Technique['kind'];
  readonly arrivesFrom?: number;
  readonly accent?: boolean;
  readonly restStroke?: boolean;
}

/** `goesOn`: it sounds over the bar line, and the next bar begins with it `held`. */
export type TimelineEvent = {
  readonly at: string;
  readonly length: string;
  readonly line: number;
  readonly goesOn?: true;
} & (
  | { readonly kind: 'notes'; readonly layer: Layer; readonly voice: number; readonly notes: readonly TimelineNote[] }
  /** Strings in the order in which they are struck. */
  | {
      readonly kind: 'strum';
      readonly direction: 'down' | 'up';
      readonly slow: boolean;
      readonly damped: boolean;
      readonly light: boolean;
      readonly accent: boolean;
      readonly notes: readonly TimelineNote[];
    }
  /** Over all strings of the chord held. */
  | { readonly kind: 'chunk' | 'roll' | 'shape-slide'; readonly accent: boolean }
  | { readonly kind: 'hit'; readonly place: HitPlace; readonly string?: number; readonly accent: boolean }
  /** No strings: all of them. */
  | { readonly kind: 'stop'; readonly layer: Layer; readonly voice?: number; readonly strings: readonly number[] }
  | { readonly kind: 'held'; readonly layer: Layer; readonly voice?: number }
);

/** What is heard, in order, once through: repeats played out, swing in the times, strokes not spread. Times from the start. */
export interface TimelinePlayed {
  readonly length: string;
  /** To be shown wherever somebody is to play along. */
  readonly caution: string;
  /** `bar` is the place among the bars of the pass, from 0. */
  readonly bars: readonly {
    readonly at: string;
    readonly pass: number;
    readonly bar: number;
    readonly number: number | null;
  }[];
  /** `bar` is the place among the bars above, from 0; `loudness` from 0 to 1. Knocks have no string of their own and no `midi`. */
  readonly sounds: readonly {
    readonly at: string;
    readonly end: string;
    readonly bar: number;
    readonly kind: SoundKind;
    readonly layer: Layer;
    readonly loudness: number;
    readonly string?: number;
    readonly midi?: number;
  }[];
}
