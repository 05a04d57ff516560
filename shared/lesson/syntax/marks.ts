import type { Span } from '../../text/span.ts';
import type { ChordName, Word } from './words.ts';

export type PickFinger = 'p' | 'i' | 'm' | 'a';

/** What the fretting hand does to a note after it is struck. `fret` is where it arrives. */
export type Technique =
  | { readonly kind: 'hammer-on' | 'pull-off' | 'slide' | 'trill'; readonly fret: number }
  | { readonly kind: 'bend' | 'vibrato' | 'harmonic' };

/** One note of a `pick` or tune row. What is absent comes from elsewhere: fret from the shape, string from the finger's place. */
export interface NoteMark {
  readonly span: Span;
  readonly string?: number;
  /** `R`: the chord's root string; `A`: the other bass string. */
  readonly bass?: 'root' | 'alternate';
  readonly finger?: PickFinger;
  readonly fret?: number;
  readonly techniques: readonly Technique[];
  readonly accent: boolean;
  readonly restStroke: boolean;
}

export type HitPlace = 'thumb' | 'palm' | 'nails' | 'body';

/** What stands in one column of a row. */
export type Mark =
  | { readonly kind: 'hold' }
  | { readonly kind: 'keep' }
  | { readonly kind: 'stop'; readonly strings: readonly number[] }
  | { readonly kind: 'notes'; readonly notes: readonly NoteMark[] }
  | { readonly kind: 'technique'; readonly technique: Technique }
  | {
      readonly kind: 'strum';
      readonly direction: 'down' | 'up';
      readonly slow: boolean;
      /** From the first string struck to the last, as string numbers; absent for all. */
      readonly strings?: readonly [number, number];
      readonly damped: boolean;
      readonly light: boolean;
      readonly accent: boolean;
    }
  | { readonly kind: 'chunk' | 'roll' | 'shape-slide'; readonly accent: boolean }
  | { readonly kind: 'hit'; readonly place: HitPlace; readonly string?: number; readonly accent: boolean }
  | { readonly kind: 'finger'; readonly finger: number | 'T' }
  | { readonly kind: 'chord'; readonly chord: ChordName }
  | { readonly kind: 'syllable'; readonly text: string }
  | { readonly kind: 'faulty' };

export interface Cell {
  readonly word: Word;
  readonly mark: Mark;
}
