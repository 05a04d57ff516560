import type { LessonDocument } from '../lesson/document.ts';
import { resolveChord } from '../lesson/model/chords.ts';
import { occurrencesIn } from '../lesson/model/occurrences.ts';
import type { Scope } from '../lesson/model/scope.ts';
import { readChordName } from '../lesson/syntax/read-names.ts';
import { printShape, type Shape } from '../neck/shape.ts';
import { type ChordSymbol, sameChord } from '../theory/chord-symbol.ts';
import type { ChordLine } from './chord-line.ts';

/** A name for a new shape, with the line that it takes: none where the lesson has the shape under that name already. */
export interface WrittenName {
  readonly text: string;
  readonly line?: ChordLine;
  /** The line that the plain name needs, or else it would mean the new shape from now on: the usual one that the lesson counts on. */
  readonly usual?: ChordLine;
}

/** Gives new shapes names that change nothing of what the lesson says so far. One for all shapes that are written together. */
export interface ShapeNames {
  nameFor(symbol: ChordSymbol, shape: Shape): WrittenName;
}

/**
 * Names for shapes that are written together. Where the name stands for another shape, on a line or in the usual shape of a chord that
 * is used without one, the new shape gets a label; and a usual shape gets its line, or else the plain name would mean the new shape.
 */
export function shapeNames(document: LessonDocument, scope: Scope, label: string): ShapeNames {
  const used = usedChords(document, scope);
  const given = new Map<string, Shape>();
  const known = scope
    .names('chord')
    .split('\n')
    .flatMap((text) => scope.chord(text) ?? []);
  const freeLabel = (name: string): string => {
    for (let number = 1; ; number += 1) {
      const text = `${name}.${label}${number === 1 ? '' : `-${number}`}`;
      if (!given.has(text) && !known.some(({ chord }) => chord?.text === text)) return text;
    }
  };
  return {
    nameFor(symbol, shape) {
      const frets = printShape(shape);
      const same = known.find(
        (line) =>
          line.chord?.symbol !== undefined &&
          sameChord(line.chord.symbol, symbol) &&
          line.shape !== undefined &&
          printShape(line.shape) === frets,
      );
      if (same?.chord !== undefined) return { text: same.chord.text };
      const { text } = symbol;
      const line = (name: string): ChordLine => ({ text: name, shape });
      const before = given.get(text);
      if (before === undefined && scope.chord(text) === undefined) {
        given.set(text, shape);
        const assumed = used.has(text) ? resolveChord(scope, chordName(text)) : undefined;
        if (assumed === undefined || printShape(assumed.shape) === frets) return { text, line: line(text) };
        given.set(text, assumed.shape);
        const labelled = freeLabel(text);
        given.set(labelled, shape);
        return { text: labelled, line: line(labelled), usual: { text, shape: assumed.shape } };
      }
      if (before !== undefined && printShape(before) === frets) return { text };
      const labelled = freeLabel(text);
      given.set(labelled, shape);
      return { text: labelled, line: line(labelled) };
    },
  };
}

function chordName(text: string) {
  return readChordName({ text, span: { start: 0, end: text.length } });
}

/**
 * The chords that the lesson plays or shows, as written. A sentence that speaks of one means whichever shape the lesson has, so that a
 * new one may take the name.
 */
function usedChords(document: LessonDocument, scope: Scope): ReadonlySet<string> {
  const used = new Set<string>();
  for (const { statement } of document.entries) {
    for (const { kind, text, defines, mentioned } of occurrencesIn(scope, statement))
      if (kind === 'chord' && !defines && mentioned !== true) used.add(text);
  }
  return used;
}
