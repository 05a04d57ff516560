import type { ResolvedChord } from '../lesson/model/resolved-chord.ts';
import type { HitPlace, PickFinger, Technique } from '../lesson/syntax/marks.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { BarSignText, Ring } from '../lesson/syntax/statement.ts';
import type { Tempo } from '../lesson/syntax/words.ts';
import type { Span } from '../text/span.ts';
import type { Meter } from '../theory/meter.ts';
import type { Rational } from '../theory/rational.ts';

// What an exercise plays, in written order, on one instrument. All times are whole notes, exact, from the start of their bar.

/** Where something comes from: an entry of the lesson, and a span counted from that entry's start (`spanInFile` adds the start). */
export interface Source {
  readonly entry: Entry;
  readonly span: Span;
}

/** One string sounding: `string` is its number (1 nearest the floor), `fret` as the hand holds it. */
export interface ScoreNote {
  readonly string: number;
  readonly fret: number;
  readonly finger?: PickFinger;
  /** Left-hand finger where the lesson gives one. */
  readonly leftFinger?: number | 'T';
  readonly techniques: readonly Technique[];
  /** How the sound arrives where it is not struck: a hammer-on or slide in a column of its own, from the note before. */
  readonly arrivesBy?: Technique['kind'];
  /** The fret that it comes from then. */
  readonly arrivesFrom?: number;
  readonly accent: boolean;
  readonly restStroke: boolean;
}

interface Timed {
  readonly at: Rational;
  /** Until the next event of its row, also over the end of its pattern where another goes on; ringing on is another matter. */
  readonly length: Rational;
  /** The sound goes on over the bar line: the next bar begins with it `held`. */
  readonly goesOn?: true;
  readonly source: Source;
}
export type Layer = 'accompaniment' | 'tune';
export type ScoreEvent = Timed &
  (
    | {
        readonly kind: 'notes';
        readonly layer: Layer;
        readonly voice: number;
        readonly notes: readonly ScoreNote[];
        /** Which strings ring on, where the lesson says so. The usual: all of a picking hand, none of a tune. */
        readonly ring?: Ring;
      }
    | {
        readonly kind: 'strum';
        readonly direction: 'down' | 'up';
        readonly slow: boolean;
        readonly damped: boolean;
        readonly light: boolean;
        readonly accent: boolean;
        /** Struck strings, in the order they are struck; frets of the chord held. */
        readonly notes: readonly { readonly string: number; readonly fret: number }[];
      }
    | { readonly kind: 'chunk' | 'roll' | 'shape-slide'; readonly accent: boolean }
    | { readonly kind: 'hit'; readonly place: HitPlace; readonly string?: number; readonly accent: boolean }
    /** Empty `strings`: all of them. */
    | { readonly kind: 'stop'; readonly layer: Layer; readonly voice?: number; readonly strings: readonly number[] }
    /** A sound of the bar before, struck or picked, that goes on over the bar line. */
    | { readonly kind: 'held'; readonly layer: Layer; readonly voice?: number }
  );

/** What is written above the staff where two lines of rhythm are: a layer, or one voice of it. */
export interface UpperVoice {
  readonly layer: Layer;
  readonly voice?: number;
}

export interface ScoreChord {
  readonly at: Rational;
  readonly length: Rational;
  /** Absent for N.C. */
  readonly chord?: ResolvedChord;
  readonly source: Source;
}

/** What is said aloud on a column of the pattern in use. */
export interface ScoreCount {
  readonly at: Rational;
  readonly text: string;
}

export interface ScoreSyllable {
  readonly at: Rational;
  readonly text: string;
  /** 1 for the first verse. */
  readonly verse: number;
}

/** The first column of a pattern or melody. */
export interface PatternStart {
  readonly at: Rational;
  readonly name: string;
}

export interface ScoreBar {
  /** Absent for a pickup. The first full bar is 1. */
  readonly number?: number;
  readonly meter: Meter;
  /** True where the meter is to be printed: at the start and at each change. */
  readonly showsMeter: boolean;
  readonly length: Rational;
  readonly opens: BarSignText | undefined;
  readonly closes: BarSignText;
  /** `:| x3` */
  readonly times?: number;
  /** The numbers of the ending that begins here, and whether it goes on. */
  readonly ending?: { readonly numbers: readonly number[]; readonly begins: boolean; readonly ends: boolean };
  /** `%`: the bar before is played again. */
  readonly same: boolean;
  readonly chords: readonly ScoreChord[];
  readonly counts: readonly ScoreCount[];
  readonly events: readonly ScoreEvent[];
  readonly syllables: readonly ScoreSyllable[];
  /** What the teacher calls out. */
  readonly calls: readonly ScoreSyllable[];
  /** Where patterns begin anew in this bar, as they run on over bars and chords. Absent: nowhere. */
  readonly patternStarts?: readonly PatternStart[];
  /** The same in all bars of a pass; absent where one line of rhythm says all. */
  readonly upperVoice?: UpperVoice;
  /** The written bar, or the pattern's column where the bar is made by `over … each`. */
  readonly source: Source;
}

/** One time through the music. There are several where a second `with` line gives the second time other patterns. */
export interface Pass {
  /** Absent where there is only one. */
  readonly number?: number;
  readonly bars: readonly ScoreBar[];
  /** Names of the patterns in use, as printed. */
  readonly with: readonly string[];
}

export interface ExerciseScore {
  readonly title: string;
  readonly aim?: string;
  readonly tempo?: Tempo;
  readonly repeat?: number;
  readonly minutes?: number;
  readonly video?: string;
  readonly passes: readonly Pass[];
  readonly stringCount: number;
  readonly hasTune: boolean;
}
