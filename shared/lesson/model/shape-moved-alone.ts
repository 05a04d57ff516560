import { printShape, type Shape } from '../../neck/shape.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { movedShapes } from './moved-shapes.ts';
import type { Scope } from './scope.ts';

/**
 * A shape of the lesson's own instrument that no chord line gives, on an edition in the same key: the one for the same name that stands
 * nearest to it. Nothing where there is none.
 */
export function shapeMovedAlone(scope: Scope, shape: Shape, symbol: ChordSymbol): Shape | undefined {
  const text = printShape(shape);
  const chords = [{ text, symbol, shape, labelled: true }];
  const asked = { own: scope.ownInstrument(), hand: scope.setting('hand'), chords, pairs: [] };
  return movedShapes(scope.edition().instrument, asked).get(text);
}
