import { neckAboveCapo } from '../../neck/capo.ts';
import type { Instrument } from '../../neck/instrument.ts';
import { printShape, type Shape } from '../../neck/shape.ts';
import { namesMoveBy } from '../../neck/tuning-distance.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { movedChord } from '../../theory/moved-chord.ts';
import { nameShape } from '../../voicing/naming.ts';
import { defaultShape } from '../../voicing/shapes.ts';
import { readChordName } from '../syntax/read-names.ts';
import type { ChordStatement } from '../syntax/statement.ts';
import type { ChordName } from '../syntax/words.ts';
import type { ResolvedChord } from './resolved-chord.ts';
import type { Scope } from './scope.ts';

/**
 * The chord as it is held on the scope's edition. Undefined where the name means nothing, where the shape that the lesson
 * gives does not suit the instrument's strings, or where no shape of the chord exists on it.
 */
export function resolveChord(scope: Scope, chord: ChordName): ResolvedChord | undefined {
  return scope.resolved(chord.text);
}

/** The same for a chord by its text, name and label, worked out anew. Equal answers are the same value; equal names are one symbol. */
export function resolvedOn(scope: Scope, text: string): ResolvedChord | undefined {
  const resolved = resolvedAnew(scope, readChordName({ text, span: NOWHERE }));
  if (resolved === undefined) return undefined;
  const known = kept.get(resolved.shape) ?? [];
  const same = known.find((one) => isSame(one, resolved));
  if (same !== undefined) return same;
  kept.set(resolved.shape, [resolved, ...known.slice(0, MOST_OF_A_SHAPE - 1)]);
  return resolved;
}

/** Chords by their shapes, which are values that never change. */
const kept = new WeakMap<Shape, readonly ResolvedChord[]>();

/** More names than a lesson and its editions give one shape. */
const MOST_OF_A_SHAPE = 8;

const NOWHERE = { start: 0, end: 0 };

function isSame(one: ResolvedChord, other: ResolvedChord): boolean {
  return (
    one.text === other.text &&
    one.name === other.name &&
    one.assumed === other.assumed &&
    one.statement === other.statement &&
    one.fingers === other.fingers
  );
}

function resolvedAnew(scope: Scope, chord: ChordName): ResolvedChord | undefined {
  const edition = scope.edition();
  const { instrument } = edition;
  const statement = scope.chord(chord.text);
  const own = statement?.chord?.symbol ?? chord.symbol;
  if (own === undefined) return undefined;
  const replaced = statement !== undefined && edition.block?.statement.chords.includes(statement) === true;
  const written = statement?.shape;

  if (edition.keeps === 'key' && !replaced) return moved(scope, chord.text, own, statement);
  const shape = written ?? usualShape(own, edition.keeps === 'shapes' ? scope.ownInstrument() : instrument);
  if (shape === undefined || shape.length !== instrument.openStrings.length) return undefined;
  const symbol = replaced
    ? (statement?.as?.symbol ?? own)
    : edition.keeps === 'shapes'
      ? renamed(scope, own, shape)
      : own;
  return {
    text: chord.text,
    name: symbol.text,
    symbol,
    shape,
    assumed: written === undefined,
    ...(statement?.fingers !== undefined ? { fingers: statement.fingers } : {}),
    ...(statement !== undefined ? { statement } : {}),
  };
}

/** The engine's shape; the capo counts as the nut. */
function usualShape(symbol: ChordSymbol, instrument: Instrument): Shape | undefined {
  return defaultShape(symbol, neckAboveCapo(instrument))?.shape;
}

/** The chord in the shape that is found for it on an edition in the same key. Where that is the lesson's own, all of its line holds. */
function moved(
  scope: Scope,
  text: string,
  symbol: ChordSymbol,
  statement: ChordStatement | undefined,
): ResolvedChord | undefined {
  const { instrument } = scope.edition();
  const shape = scope.movedShape(text) ?? usualShape(symbol, instrument);
  if (shape === undefined) return undefined;
  const base = { text, name: symbol.text, symbol, shape };
  const keepsStrings = namesMoveBy(scope.ownInstrument(), instrument) === 0;
  const written = keepsStrings ? statement?.shape : undefined;
  if (statement === undefined || written === undefined || printShape(written) !== printShape(shape))
    return { ...base, assumed: statement?.shape === undefined };
  const { fingers } = statement;
  return { ...base, assumed: false, statement, ...(fingers === undefined ? {} : { fingers }) };
}

/** The name that the same frets have on the edition's instrument: moved by the tunings' distance where that is one, found anew where not. */
function renamed(scope: Scope, symbol: ChordSymbol, shape: Shape): ChordSymbol {
  const { instrument, key } = scope.edition();
  const distance = namesMoveBy(scope.ownInstrument(), instrument);
  if (distance === undefined) {
    const context = key === undefined ? {} : { key };
    return nameShape(neckAboveCapo(instrument), shape, context)[0]?.symbol ?? symbol;
  }
  if (distance === 0) return symbol;
  return movedChord(symbol, distance, key);
}
