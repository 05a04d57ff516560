import type { PackedPerformance } from '../../score/performance-packed.ts';

/** A lesson as the interactive page holds it: every sheet that the reader may choose, drawn, and what each exercise sounds like. */
export interface PageLesson {
  /** What many blocks have in common; see `packed-markup.ts`. */
  readonly pieces: readonly string[];
  readonly blocks: readonly PageBlock[];
  /** Widths that lines are laid out for, the narrowest first. Unit: mm. */
  readonly widthsMm: readonly number[];
  /** The reader's first choice first. */
  readonly editions: readonly PageEdition[];
}

export interface PageBlock {
  readonly kind: string;
  readonly packed: string;
}

export interface PageEdition {
  readonly name: string;
  readonly label: string;
  /** For each hand, then for each width, the numbers of the blocks. */
  readonly sheets: Readonly<Record<PageHand, readonly (readonly number[])[]>>;
  /** By number of the exercise, which its title has as `data-place`; nothing for those that have nothing to be heard. */
  readonly performances: readonly (PackedPerformance | null)[];
}

export type PageHand = 'right' | 'left';
