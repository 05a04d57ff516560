import { resolveChord } from '../lesson/model/chords.ts';
import { chordBeside } from '../lesson/model/naming-context.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { ChordStatement } from '../lesson/syntax/statement.ts';
import type { ChordName } from '../lesson/syntax/words.ts';
import { neckAboveCapo } from '../neck/capo.ts';
import { printShape, type Shape } from '../neck/shape.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import { playableFirst } from '../voicing/playable.ts';
import { type ShapeWishes, shapesFor, type Voicing } from '../voicing/shapes.ts';

/** Shapes of a chord on the instrument in the hand, best first, those that the hand cannot hold last; the capo counts as the nut. */
export function shapesOf(scope: Scope, symbol: ChordSymbol, wishes: ShapeWishes = {}): readonly Voicing[] {
  const neck = neckAboveCapo(scope.edition().instrument);
  return playableFirst(shapesFor(symbol, neck, wishes), neck, scope.setting('hand'));
}

/** Shapes that other lines of the lesson give to the same name: a further label is there for another shape. */
export function takenShapes(scope: Scope, chord: ChordName): ReadonlySet<string> {
  const taken = new Set<string>();
  for (const text of scope.names('chord').split('\n')) {
    if (text === chord.text || (text !== chord.name && !text.startsWith(`${chord.name}.`))) continue;
    const shape = scope.chord(text)?.shape;
    if (shape !== undefined) taken.add(printShape(shape));
  }
  return taken;
}

/**
 * The shape that the hand comes from when it goes to the chord: that of the chord before it in the first progression that uses it,
 * else that of the line above.
 */
export function shapeBefore(scope: Scope, chord: ChordName, above: ChordStatement | undefined): Shape | undefined {
  const before = chordBeside(scope, chord, 'before');
  return (before && resolveChord(scope, before)?.shape) ?? above?.shape;
}
