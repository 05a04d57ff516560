import type { Span, TextEdit } from './span.ts';

export type Severity = 'error' | 'warning' | 'notice' | 'hint';

/** A way out of a problem, as edits of the text; spans are counted like the problem's own. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly TextEdit[];
  /** The name at the problem's place becomes this one wherever it is used; `edits` then holds only the place itself. */
  readonly rename?: string;
  /** The chord at the problem's place gets a line of its own beside the other chord lines; `edits` then hold the nearest place for it. */
  readonly writesShape?: boolean;
  /** True where the fix is what nearly everybody would choose, so that the editor may offer it first. */
  readonly preferred?: boolean;
}

/** Something a teacher should know about a place in the text. `code` is stable and dotted: `shape.too-few-frets`. */
export interface Problem {
  readonly code: string;
  readonly span: Span;
  readonly severity: Severity;
  /** One or two sentences as a teacher would say them. */
  readonly message: string;
  readonly fixes?: readonly Fix[];
  /**
   * Where the text stops in the middle of something that would be in order: whoever types is told of it quietly. Whoever hands out goes
   * by the severity, which is that of a mistake.
   */
  readonly unfinished?: true;
  /** The further edition of the lesson that it is about, or several parted by commas; absent where it is about the lesson itself. */
  readonly edition?: string;
  /**
   * What it is about beyond its place, named as it is on every edition: of two problems with the same code at the same place those
   * about the same are one, whatever figures of an instrument their messages give. Empty where the place says it all; absent where the
   * message does.
   */
  readonly about?: readonly string[];
}

/** What a reader of text returns: the value, or why there is none. */
export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: Fault };

/** A fault in a word: where in the word, and what is wrong with it. */
export interface Fault {
  readonly code: string;
  readonly message: string;
  /** Counted from the start of the word that was read. */
  readonly span: Span;
  /** The whole word as it should have been, where that can be said. */
  readonly instead?: string;
}
