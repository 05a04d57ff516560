import type { Outcome } from '../../shared/text/problem.ts';
import type { ChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { chordTones, parseChordSymbol } from '../../shared/theory/chord-symbol.ts';
import type { Key } from '../../shared/theory/key.ts';
import { parseKey } from '../../shared/theory/key.ts';
import { printNote } from '../../shared/theory/note.ts';

/** The value of something that must be readable for the test to make sense. */
export function reading<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(`${outcome.problem.code}: ${outcome.problem.message}`);
  return outcome.value;
}

export function chord(text: string): ChordSymbol {
  return reading(parseChordSymbol(text));
}

export function key(text: string): Key {
  return reading(parseKey(text));
}

/** `C E G`: the notes of a chord name, root first. */
export function notesOf(text: string): string {
  return chordTones(chord(text))
    .map((tone) => printNote(tone.note))
    .join(' ');
}

/** The seed of every property, so that a failure comes back. */
export const SEED = 20260301;
