import { neckAboveCapo } from '../../neck/capo.ts';
import { printShape, type Shape } from '../../neck/shape.ts';
import { readFrets } from '../../neck/shape-reader.ts';
import { parseChordSymbol } from '../../theory/chord-symbol.ts';
import { nameShape } from '../../voicing/naming.ts';
import { readChordName } from '../syntax/read-names.ts';
import type { ChordName, Word } from '../syntax/words.ts';
import { namingContext } from './naming-context.ts';
import type { Scope } from './scope.ts';
import { shapeMovedAlone } from './shape-moved-alone.ts';

/** What an `@` in prose points at. `length` says how many characters behind the sign belong to it. */
export type Mention =
  | { readonly kind: 'chord'; readonly chord: ChordName; readonly length: number }
  | { readonly kind: 'shape'; readonly shape: Shape; readonly length: number }
  | { readonly kind: 'pattern' | 'melody' | 'progression' | 'family'; readonly name: string; readonly length: number };

/** The longest known name at the start of a possible mention: names of the lesson, chords of the trade, bare shapes. */
export function longestMention(scope: Scope, word: Word): Mention | undefined {
  for (let length = word.text.length; length > 0; length--) {
    const text = word.text.slice(0, length);
    // A name ends where its letters end: `@rolling` does not mention `roll`.
    if (/[\p{L}\p{N}]/u.test(text.at(-1) ?? '') && /[\p{L}\p{N}]/u.test(word.text[length] ?? '')) continue;
    const mention = mentionOf(scope, text, word);
    if (mention !== undefined) return mention;
  }
  return undefined;
}

function mentionOf(scope: Scope, text: string, word: Word): Mention | undefined {
  const { length } = text;
  const span = { start: word.span.start, end: word.span.start + length };
  for (const kind of ['pattern', 'melody', 'progression', 'family'] as const) {
    if (scope.knows(kind, text)) return { kind, name: text, length };
  }
  if (scope.knows('chord', text) || parseChordSymbol(text).ok) {
    return { kind: 'chord', chord: readChordName({ text, span }), length };
  }
  // What follows a shape, such as a comma, is prose again.
  const frets = /^[\dx].*[\dx]$/i.test(text) ? readFrets(text) : undefined;
  const shape = frets?.ok === true ? shapeThere(scope, frets.value.shape) : undefined;
  return shape === undefined ? undefined : { kind: 'shape', shape, length };
}

/** A shape without a name as it is held on the scope's edition: in the same key by what it sounds on the lesson's own instrument. */
function shapeThere(scope: Scope, shape: Shape): Shape | undefined {
  const { keeps, instrument } = scope.edition();
  const own = scope.ownInstrument();
  const strings = keeps === 'key' ? own.openStrings.length : instrument.openStrings.length;
  if (shape.length !== strings) return undefined;
  if (keeps !== 'key') return shape;
  const text = printShape(shape);
  const line = scope
    .names('chord')
    .split('\n')
    .find((name) => name !== '' && printShape(scope.chord(name)?.shape ?? []) === text);
  const found = line === undefined ? undefined : scope.movedShape(line);
  if (found !== undefined) return found;
  const symbol = nameShape(neckAboveCapo(own), shape, namingContext(scope, undefined))[0]?.symbol;
  return symbol === undefined ? undefined : shapeMovedAlone(scope, shape, symbol);
}
