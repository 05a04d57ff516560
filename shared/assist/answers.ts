import type { Span, TextEdit } from '../text/span.ts';

/** A picture on its own opaque paper, for places that follow no theme: hovers and suggestion details. */
export interface Picture {
  /** A whole SVG document, at most about 20 KB. */
  readonly svg: string;
  /** Size on screen. Unit: CSS pixels. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** A sentence that says what the picture shows. */
  readonly alternative: string;
}

/** What is shown when the reader points at a word: the same facts as text and, for shapes, as a picture. */
export interface Card {
  readonly span: Span;
  readonly picture?: Picture;
  /** Markdown. Lesson text inside is already escaped. A picture stands below the first paragraph, the head of the card. */
  readonly markdown: string;
}

export type SuggestionKind =
  | 'chord'
  | 'shape'
  | 'pattern'
  | 'progression'
  | 'melody'
  | 'keyword'
  | 'instrument'
  | 'place'
  | 'mark'
  | 'value';

/** One offer for the place where the teacher types. Offers come best first. */
export interface Suggestion {
  readonly kind: SuggestionKind;
  readonly label: string;
  /** A few words beside the label. */
  readonly detail?: string;
  /** What is written in place of `replaces`. */
  readonly insert: string;
  readonly replaces: Span;
  /** What the editor compares with the letters typed so far, where that is not the label. */
  readonly filter?: string;
  /** The chord that a shape is offered for, as it is written. */
  readonly chord?: string;
  /** The edition that a chord or a shape is held on, where it is not the lesson's own. */
  readonly edition?: string;
}

export type OutlineKind =
  | 'part'
  | 'chords'
  | 'chord'
  | 'progression'
  | 'pattern'
  | 'melody'
  | 'exercise'
  | 'family'
  | 'edition';

export interface OutlineItem {
  readonly kind: OutlineKind;
  readonly name: string;
  readonly detail?: string;
  readonly span: Span;
  /** The name itself. */
  readonly nameSpan: Span;
  readonly children: readonly OutlineItem[];
}

/** Something the tool assumed, shown as ghost text that is not in the file. */
export interface Ghost {
  readonly offset: number;
  readonly text: string;
  readonly tooltip: string;
  /** What says it in the file. */
  readonly write: Writing;
}

export interface Writing {
  /** What is done, in words for a list of choices. */
  readonly title: string;
  /** Spans in file offsets. */
  readonly edits: readonly TextEdit[];
}

/** Something that can be done to the shape of a chord. */
export interface ShapeChange extends Writing {
  /** `write`: the assumed shape gets a line; `next`, `previous`: the chord gets another one of its shapes. */
  readonly kind: 'write' | 'next' | 'previous';
}
