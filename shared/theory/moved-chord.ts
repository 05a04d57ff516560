import { type ChordSymbol, chordSymbol } from './chord-symbol.ts';
import { type Key, printKey, spellPitchClass } from './key.ts';
import { type Note, pitchClass } from './note.ts';

// Symbols are values that never change, and a lesson asks for its few chords on every bar of every edition.
const moved = new WeakMap<ChordSymbol, Map<string, ChordSymbol>>();

/** The same chord so many semitones higher, its notes spelled as the key has them. */
export function movedChord(symbol: ChordSymbol, semitones: number, key: Key | undefined): ChordSymbol {
  const known = moved.get(symbol) ?? new Map<string, ChordSymbol>();
  moved.set(symbol, known);
  const name = `${semitones} ${key === undefined ? '' : printKey(key)}`;
  const before = known.get(name);
  if (before !== undefined) return before;
  const movedNote = (note: Note): Note => spellPitchClass(pitchClass(note) + semitones, key);
  const bass = symbol.bass === undefined ? undefined : movedNote(symbol.bass);
  const after = chordSymbol(movedNote(symbol.root), symbol, bass);
  known.set(name, after);
  return after;
}
