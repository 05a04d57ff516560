import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import type { NamingContext } from '../../voicing/naming.ts';
import { readChordName } from '../syntax/read-names.ts';
import type { ChordName } from '../syntax/words.ts';
import { resolveChord } from './chords.ts';
import type { Side } from './neighbours.ts';
import type { Scope } from './scope.ts';

/**
 * What the lesson says about the place of a chord: its key, and the chords that it comes from and goes to. On an edition that holds
 * the same shapes in another tuning, key and chords are those that sound there.
 */
export function namingContext(scope: Scope, chord: Pick<ChordName, 'text' | 'name'> | undefined): NamingContext {
  const chordStyle = scope.setting('chordStyle');
  const key = scope.setting('key');
  const previous = chord && symbolBeside(scope, chord, 'before');
  const next = chord && symbolBeside(scope, chord, 'after');
  return {
    chordStyle,
    ...(key === undefined ? {} : { key }),
    ...(previous === undefined ? {} : { previous }),
    ...(next === undefined ? {} : { next }),
  };
}

/** The name of the chord's neighbour as written. A labelled chord that no progression uses stands where the plain name does. */
export function chordBeside(scope: Scope, chord: Pick<ChordName, 'text' | 'name'>, side: Side): ChordName | undefined {
  const text =
    scope.neighbour(chord.text, side) ?? (chord.text === chord.name ? undefined : scope.neighbour(chord.name, side));
  return text === undefined ? undefined : readChordName({ text, span: { start: 0, end: text.length } });
}

function symbolBeside(scope: Scope, chord: Pick<ChordName, 'text' | 'name'>, side: Side): ChordSymbol | undefined {
  const beside = chordBeside(scope, chord, side);
  if (beside === undefined || scope.edition().keeps !== 'shapes') return beside?.symbol;
  return resolveChord(scope, beside)?.symbol;
}
