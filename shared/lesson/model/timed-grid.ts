import type { Rational } from '../../theory/rational.ts';
import type { Mark } from '../syntax/marks.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type { GridRow, GridStatement, RingDirective } from '../syntax/statement.ts';
import type { Word } from '../syntax/words.ts';
import type { ColumnTime } from './count-times.ts';
import type { OrderedBar } from './played-order.ts';

/** One mark of a row with its time, in whole notes from the start of the grid. */
export interface TimedMark {
  readonly mark: Mark;
  readonly at: Rational;
  readonly length: Rational;
  readonly word: Word;
  /** The entry that `word` stands in: another pattern's where `like` took it over. */
  readonly entry: Entry;
  /** A repeat comes round: the mark was met before. */
  readonly again?: true;
}

export interface TimedRow {
  readonly kind: GridRow['kind'];
  readonly voice: number;
  /** For left-hand fingers: the row whose notes they stop. */
  readonly fingersOf?: RowLabel;
  /** The chord that the row goes over, name and label; absent where it goes over any. */
  readonly chord?: string;
  readonly marks: readonly TimedMark[];
}

/** What tells the rows of one line of music apart. */
export interface RowLabel {
  readonly kind: GridRow['kind'];
  readonly voice: number;
  readonly chord?: string;
}

export function sameLabel(a: RowLabel, b: RowLabel): boolean {
  return a.kind === b.kind && a.voice === b.voice && a.chord === b.chord;
}

/**
 * A pattern or melody with `like` worked in and every mark at its time, repeats and endings of its count played out. Several lines of
 * music follow each other.
 */
export interface TimedGrid {
  readonly statement: GridStatement;
  readonly length: Rational;
  /** How far into its bar the grid begins; more than zero for a pickup. */
  readonly startsAt: Rational;
  /** From its beginning to its first full bar; zero where it begins with one. */
  readonly lead: Rational;
  readonly counts: readonly ColumnTime[];
  readonly rows: readonly TimedRow[];
  readonly plant: GridStatement['plant'];
  readonly ring: RingDirective['ring'] | undefined;
  /** Where a part of the count comes round: the same in the order of the text, for bars that come round just so. */
  readonly asWritten?: { readonly grid: TimedGrid; readonly bars: readonly WrittenCount[] };
}

/** A bar of a count, in the order of the text. */
export interface WrittenCount extends OrderedBar {
  readonly length: Rational;
}
