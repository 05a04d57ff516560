import type { Rational } from '../theory/rational.ts';

// A drawing as a display list: plain data in millimetres, y downwards, origin at the top left. What it is painted with
// (SVG in a theme, SVG on paper, later PDF) is the writer's business.

/** How strongly something is drawn. `paper` is the ground itself; `accent` never carries a meaning alone. */
export type Ink = 'strong' | 'soft' | 'faint' | 'paper' | 'accent';

/** What a text is, which decides its typeface: figures, chord names, what is counted aloud, words sung or printed. */
export type TextRole = 'number' | 'name' | 'count' | 'word';

export interface LineItem {
  readonly kind: 'line';
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  readonly thickness: number;
  readonly ink: Ink;
  readonly dashed?: boolean;
}

/** Filled, or outlined where it has a thickness. */
export interface RectangleItem {
  readonly kind: 'rectangle';
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly rounding: number;
  readonly ink: Ink;
  readonly thickness?: number;
  readonly dashed?: boolean;
}

/** Filled, or outlined where it has a thickness. */
export interface CircleItem {
  readonly kind: 'circle';
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly ink: Ink;
  readonly thickness?: number;
}

export type PathStep =
  | readonly ['M' | 'L', number, number]
  | readonly ['C', number, number, number, number, number, number]
  | readonly ['Z'];

/** Filled, or drawn as a line where it has a thickness. */
export interface PathItem {
  readonly kind: 'path';
  readonly steps: readonly PathStep[];
  readonly ink: Ink;
  readonly thickness?: number;
  readonly dashed?: boolean;
}

export interface TextItem {
  readonly kind: 'text';
  readonly x: number;
  /** The baseline. */
  readonly y: number;
  readonly text: string;
  readonly size: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly role: TextRole;
  readonly ink: Ink;
  /** Only where it differs from the role's own. */
  readonly bold?: boolean;
  /** Where the text is set in several sizes: its parts in order, each starting where the face ends the one before. */
  readonly runs?: readonly TextRun[];
}

export interface TextRun {
  readonly text: string;
  readonly size: number;
  /** How far above the baseline. */
  readonly lift: number;
}

/** Items moved together. A group that stands for a place in the lesson has its index, its area and a sentence to be read aloud. */
export interface GroupItem {
  readonly kind: 'group';
  readonly x: number;
  readonly y: number;
  readonly items: readonly Item[];
  /** How large the items are drawn, against their own size; 1 where nothing is said. */
  readonly scale?: number;
  /** The same list of items stands in many drawings, so a writer may keep what it wrote of them. */
  readonly shared?: true;
  readonly mark?: PlaceMark;
  /** What begins with it within running text; a line that begins nothing goes on with what stands above it. */
  readonly begins?: 'paragraph' | 'list-item';
  /** True where the words beside it say all that it shows. */
  readonly decorates?: true;
  /** Words that are not English: the tag of their language. Source: BCP 47. */
  readonly language?: string;
  /** Words that are a link: the address that they lead to. */
  readonly address?: string;
  /** What stands there as a reader would type it, where signs are drawn among the letters. */
  readonly spelled?: string;
}

export interface PlaceMark {
  /** Index into the list of places that goes with the drawing. Absent where the group is only read aloud. */
  readonly place?: number;
  /** A sentence for who cannot see the drawing. */
  readonly alternative: string;
  /** What can be clicked, counted like the group's items. */
  readonly area?: Box;
  /** What it shows of music that is played, so that a page can mark it while it sounds. */
  readonly played?: PlayedMark;
  /** How the group is read aloud; where nothing is said, the alternative is read in the place of the whole group. */
  readonly reads?: Reading;
}

/**
 * What is played where a group stands: a bar of one time through an exercise, with the moments at which something begins in it; the
 * name of a chord in that bar; a diagram of a chord, by the text that the lesson calls it.
 */
export type PlayedMark =
  | { readonly kind: 'bar'; readonly pass: number; readonly bar: number; readonly moments: readonly PlayedMoment[] }
  | {
      readonly kind: 'name';
      readonly pass: number;
      readonly bar: number;
      readonly at: Rational;
      readonly held?: string;
    }
  | { readonly kind: 'diagram'; readonly held: string };

/** A moment of a bar in whole notes, and where it stands, counted like the group's items. */
export interface PlayedMoment {
  readonly at: Rational;
  readonly x: number;
}

/** A heading and running text are read word by word; of a group its name, then its parts one by one. */
export type Reading =
  | { readonly kind: 'heading'; readonly level: number; readonly language?: string }
  | { readonly kind: 'text' }
  | { readonly kind: 'group' };

export type Item = LineItem | RectangleItem | CircleItem | PathItem | TextItem | GroupItem;

export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
  /** A sentence for who cannot see it. */
  readonly alternative: string;
  /** Size of the drawing on the sheet: below 1 where it had to shrink to fit. `width` and `height` are those before shrinking. */
  readonly scale: number;
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export function group(x: number, y: number, items: readonly Item[], mark?: PlaceMark): GroupItem {
  return mark === undefined ? { kind: 'group', x, y, items } : { kind: 'group', x, y, items, mark };
}

export function line(x1: number, y1: number, x2: number, y2: number, thickness: number, ink: Ink = 'strong'): LineItem {
  return { kind: 'line', x1, y1, x2, y2, thickness, ink };
}
