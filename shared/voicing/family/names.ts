import type { Instrument } from '../../neck/instrument.ts';
import { lowestSounding, soundingMidi } from '../../neck/pitches.ts';
import type { Shape } from '../../neck/shape.ts';
import { type ChordSymbol, printChordSymbol } from '../../theory/chord-symbol.ts';
import { pitchClass } from '../../theory/note.ts';
import { fewNotesOf, tellFewNotes } from '../few-notes.ts';
import { type NamingContext, nameShape } from '../naming.ts';

/** What a shape is called as a chord of the progression. */
export interface FamilyName {
  readonly as: string;
  /** The name that comes first for these notes, where it is on another root. */
  readonly also?: string;
}

/**
 * The honest name of a shape that stands for a chord: what sounds, on the chord's own root where a musician might say so, spelled as
 * the progression spells it, with its written bass where that sounds lowest; else the name that comes first for what sounds.
 */
export function familyName(
  instrument: Instrument,
  shape: Shape,
  chord: ChordSymbol,
  context: NamingContext,
): FamilyName {
  const names = nameShape(instrument, shape, context);
  const [first] = names;
  if (first === undefined) {
    const few = fewNotesOf(soundingMidi(instrument, shape), context.key);
    return { as: few === undefined ? 'no chord' : tellFewNotes(few) };
  }
  const root = pitchClass(chord.root);
  const own = names.find(({ ready, symbol }) => ready && pitchClass(symbol.root) === root);
  if (own === undefined) return { as: first.text };
  const { bass, ...symbol } = own.symbol;
  const written = isLowest(instrument, shape, chord) ? chord.bass : bass;
  const as = printChordSymbol({ ...symbol, root: chord.root, ...(written === undefined ? {} : { bass: written }) });
  return pitchClass(first.symbol.root) === root ? { as } : { as, also: first.text };
}

function isLowest(instrument: Instrument, shape: Shape, { bass }: ChordSymbol): boolean {
  const lowest = lowestSounding(instrument, shape);
  return bass !== undefined && lowest !== undefined && lowest.midi % 12 === pitchClass(bass);
}
