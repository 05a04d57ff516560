import type { Span } from '../text/span.ts';

export type BlockKind =
  | 'title'
  | 'facts'
  | 'prose'
  | 'heading'
  | 'diagrams'
  | 'exercise'
  | 'system'
  | 'plain-text'
  | 'page'
  | 'question'
  | 'candidate'
  | 'note';

/**
 * One piece of the sheet that is sent, drawn and kept by itself: a title, a paragraph, a row of diagrams, one line of bars.
 * Where it stands in the text is not part of what it is: `source` and `places` may change while `id` and `markup` stay.
 */
export interface Block {
  /** Made from `markup` and `stale` alone, so equal drawings share it; the place in the sequence tells twins apart. */
  readonly id: string;
  readonly kind: BlockKind;
  /**
   * A well-formed XML fragment with one root element (XHTML, with SVG inside), classes and presentation attributes only.
   * Elements that stand for a place in the lesson carry `data-place="n"`, an index into `places`, and `tabindex="0"`. A button with
   * `data-write="n"` writes the answer of that number to the question that the block comes from.
   */
  readonly markup: string;
  /** Where the block comes from in the lesson. File offsets. */
  readonly source: Span;
  /**
   * Where each marked element comes from, then what else the block draws from: the patterns that an exercise plays. File offsets.
   */
  readonly places: readonly Span[];
  /** Set when the text is broken now and the last good drawing is shown in its place: what is wrong, in a sentence. */
  readonly stale?: string;
}

export type PaperName = 'a4' | 'letter';

/** `one-page` makes everything smaller, down to a stated size, until it fits on one page. */
export type PrintSize = 'normal' | 'large' | 'one-page';

export interface PaperChoice {
  readonly paper: PaperName;
  readonly print: PrintSize;
}

/** How a reader looks at the sheet: what the drawing depends on besides the lesson. */
export interface SheetView {
  /** Width to lay lines out for. Unit: mm on the sheet. Pages have a width of their own. */
  readonly widthMm: number;
  readonly leftHanded: boolean;
  /** Absent for the flowing sheet. */
  readonly page?: PaperChoice;
  /** What stands on the dots of diagrams: fingers where nothing is said, or what each tone is in the chord. */
  readonly dots?: 'fingers' | 'roles';
  /** Which edition: the name after `called`, or the instrument's name; absent for the lesson's own `for`. */
  readonly edition?: string;
}
