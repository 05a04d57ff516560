import type { Shape } from '../../neck/shape.ts';
import { readChordName } from '../syntax/read-names.ts';
import type { ProgressionStatement } from '../syntax/statement.ts';
import type { ChordName } from '../syntax/words.ts';
import { resolveChord } from './chords.ts';
import { chordsIn } from './chords-in.ts';
import type { Definitions, Edition } from './lesson.ts';
import { type ChordToMove, movedShapes } from './moved-shapes.ts';
import type { Scope } from './scope.ts';

const NONE: ReadonlyMap<string, Shape> = new Map();

/**
 * The shapes of an edition in the same key, by the texts of the lesson's chord lines and of the chords in its progressions that have
 * none; `own` is the scope of the lesson itself. None on an edition that keeps the shapes.
 */
export function shapesOfEdition(own: Scope, edition: Edition, definitions: Definitions): ReadonlyMap<string, Shape> {
  if (edition.keeps !== 'key') return NONE;
  const chords = new Map<string, ChordToMove>();
  const add = (name: ChordName): string | undefined => {
    const text = own.chord(name.text)?.chord?.text ?? name.text;
    if (chords.has(text)) return text;
    const chord = resolveChord(own, name);
    if (chord === undefined) return undefined;
    const labelled = text.includes('.');
    chords.set(text, { text, symbol: chord.symbol, shape: chord.shape, labelled });
    return text;
  };
  for (const text of definitions.chords.keys()) add(readChordName({ text, span: { start: 0, end: text.length } }));
  const pairs = new Map<string, readonly [string, string]>();
  for (const list of definitions.progressions.values()) {
    for (const { statement } of list) {
      for (const [from, to] of changesIn(statement)) {
        const [a, b] = [add(from), add(to)];
        if (a !== undefined && b !== undefined && a !== b) pairs.set(`${a} > ${b}`, [a, b]);
      }
    }
  }
  const instrument = own.ownInstrument();
  return movedShapes(edition.instrument, {
    own: instrument,
    hand: own.setting('hand'),
    chords: [...chords.values()],
    pairs: [...pairs.values()],
  });
}

const changes = new WeakMap<ProgressionStatement, readonly (readonly [ChordName, ChordName])[]>();

/** Chords that follow each other, each pair once; a chord by itself follows itself. */
function changesIn(progression: ProgressionStatement): readonly (readonly [ChordName, ChordName])[] {
  const known = changes.get(progression);
  if (known !== undefined) return known;
  const chords = chordsIn(progression);
  const found = new Map<string, readonly [ChordName, ChordName]>();
  for (const [at, chord] of chords.entries()) {
    const next = chords[at + 1] ?? chord;
    found.set(`${chord.text} > ${next.text}`, [chord, next]);
  }
  changes.set(progression, [...found.values()]);
  return [...found.values()];
}
