import type { Shape } from '../../neck/shape.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import type { ChordStatement } from '../syntax/statement.ts';

/** A chord as it is held on one instrument. */
export interface ResolvedChord {
  /** Name and label as the lesson uses them: the key to look it up by. */
  readonly text: string;
  /** The name as printed on this edition. */
  readonly name: string;
  readonly symbol: ChordSymbol;
  readonly shape: Shape;
  readonly fingers?: readonly (number | 'T')[];
  /** True where the lesson gives no shape at all and the usual one is taken; a shape that keeps the key on an edition is none of those. */
  readonly assumed: boolean;
  /** The line that gives the shape. */
  readonly statement?: ChordStatement;
}
