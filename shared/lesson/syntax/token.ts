import type { Span } from '../../text/span.ts';

export type TokenKind =
  | 'byte-order-mark'
  | 'blank'
  | 'line-end'
  | 'comment'
  | 'prose-mark'
  | 'prose'
  | 'word'
  | 'comma'
  | 'bar-sign';

/** The smallest piece of the text that has a meaning of its own, blanks included. Spans are counted from the start of the entry. */
export interface Token extends Span {
  readonly kind: TokenKind;
}

export type LineKind = 'empty' | 'comment' | 'prose' | 'statement';

/** One line of an entry with every token of it, line end included. */
export interface Line {
  readonly kind: LineKind;
  readonly start: number;
  /** Before the line end. */
  readonly end: number;
  /** Width of the blanks at the left; a tab reaches to the next multiple of eight, as editors show it. */
  readonly indent: number;
  readonly tokens: readonly Token[];
}
