import type { Drawing } from './drawing.ts';
import type { ProseNode } from './prose.ts';

/** A few words, and the place in the lesson that they stand for, as an index into the places of their block. */
export interface Phrase {
  readonly text: string;
  readonly place?: number;
}

/** A name within a sentence that was written with `@`: what it shows, and where it is written. */
export interface ShownMention {
  readonly place: number;
  readonly text: string;
  /** Small enough to stand in a line. */
  readonly diagram?: Drawing;
}

/** Holds words of the teacher's own: the tag of their language, where the lesson says it. All other words are English. Source: BCP 47. */
export interface Written {
  readonly language?: string;
}

/**
 * What one block of the sheet says, as data. From it are made the markup of the flowing sheet and the pieces of a printed page.
 */
export type SheetContent =
  /** Who and when stand in one line under the title. */
  | (Written & { readonly kind: 'title'; readonly title?: Phrase; readonly line: readonly Phrase[] })
  /** One line of facts, and further sentences below it. */
  | { readonly kind: 'facts'; readonly line: readonly Phrase[]; readonly further: readonly Phrase[] }
  | { readonly kind: 'caution'; readonly text: Phrase }
  | (Written & {
      readonly kind: 'prose';
      readonly nodes: readonly ProseNode[];
      readonly mentions: readonly ShownMention[];
    })
  /** A part of the lesson, or the name of a pattern, melody or progression. */
  | (Written & { readonly kind: 'heading'; readonly level: 2 | 4; readonly text: Phrase })
  | { readonly kind: 'turn'; readonly place: number }
  | { readonly kind: 'diagrams'; readonly drawing: Drawing }
  /** Title and aim are the teacher's own. */
  | (Written & {
      readonly kind: 'exercise';
      readonly title: Phrase;
      readonly aim?: string;
      readonly facts: readonly string[];
    })
  /** Over the lines of one time through an exercise that has several. */
  | { readonly kind: 'pass'; readonly text: Phrase }
  | { readonly kind: 'system'; readonly drawing: Drawing }
  /** What is drawn, written down: the drawing itself, thousands of values for a line of music, need not be kept. */
  | { readonly kind: 'written'; readonly markup: string }
  | { readonly kind: 'legend'; readonly title: string; readonly signs: readonly LegendEntry[] }
  /** Text as it is written, for what the sheet cannot draw. A sentence above says what it is. */
  | { readonly kind: 'plain'; readonly sentence?: string; readonly text: Phrase }
  /** A name that the lesson does not know, as it is written. */
  | { readonly kind: 'unknown-name'; readonly text: Phrase }
  /** A printed page, which holds all that is on it. */
  | { readonly kind: 'page'; readonly drawing: Drawing }
  /** What the lesson asks to be found, and what there is to say about it. Not printed. */
  | { readonly kind: 'question'; readonly title: Phrase; readonly asks: string; readonly told: readonly string[] }
  /** One thing that was found, with the control that writes it into the lesson. Not printed. */
  | {
      readonly kind: 'candidate';
      readonly of: 'family' | 'tune';
      /** Which of how many it is, from 0. */
      readonly choice: number;
      readonly count: number;
      readonly why: string;
      readonly facts: readonly string[];
      readonly drawings: readonly Drawing[];
    }
  /** A sentence to the reader about the sheet itself, which is not printed. */
  | { readonly kind: 'note'; readonly text: string };

/** What one sign means. The sample is missing where the sign is a matter of letters. */
export interface LegendEntry {
  readonly sample?: Drawing;
  readonly text: string;
}
