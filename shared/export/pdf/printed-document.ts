import type { Box } from '../../engrave/drawing.ts';
import type { FlatItem } from '../flat-items.ts';

/** A lesson as a tagged document of pages, with all that a file of it holds but the faces. Plain data. Unit: mm, y downwards. */
export interface PrintedDocument {
  readonly title: string;
  readonly author?: string;
  /** Source: BCP 47. */
  readonly language: string;
  readonly pages: readonly PrintedPage[];
  /** All elements in the order in which they are read; what holds others stands before them. */
  readonly elements: readonly PrintedElement[];
  readonly bookmarks: readonly Bookmark[];
}

export interface PrintedPage {
  readonly width: number;
  readonly height: number;
  /** In the order in which they are painted. */
  readonly runs: readonly PrintedRun[];
}

/** What an element is. Source: ISO 32000-1, 14.8.4, standard structure types. */
export type PrintedTag = 'H1' | 'H2' | 'H3' | 'H4' | 'P' | 'L' | 'LI' | 'Lbl' | 'LBody' | 'Link' | 'Div' | 'Figure';

export interface PrintedElement {
  readonly tag: PrintedTag;
  /** The element that holds it, as an index; absent for those that the document itself holds. */
  readonly within?: number;
  /** Figures: a sentence for who cannot see them. */
  readonly alternative?: string;
  /** Figures: the room that they take up on their page. */
  readonly box?: Box;
  /** Groups: a name. */
  readonly title?: string;
  /** Its language, where that is not the document's. Source: BCP 47. */
  readonly language?: string;
  /** Links: where they lead. */
  readonly address?: string;
}

/** A stretch of what is painted that belongs together. */
export interface PrintedRun {
  /** The element that it is content of, as an index; absent for what is not read: rules, frames, heads and feet of pages. */
  readonly element?: number;
  /** What is not read: whether it is of the page or of what stands on it. Source: ISO 32000-1, 14.8.2.2, types of artifacts. */
  readonly artifact?: 'Pagination' | 'Layout';
  /** What a reader gets who copies it, where that is not the letters that are drawn. */
  readonly spelled?: string;
  readonly items: readonly FlatItem[];
}

/** A heading to jump to. */
export interface Bookmark {
  readonly title: string;
  /** Index of its page, and how far down it stands there. */
  readonly page: number;
  readonly y: number;
  readonly inner: readonly Bookmark[];
}
