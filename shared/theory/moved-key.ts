import { type Key, keySignature, spellPitchClass } from './key.ts';
import { LETTERS, noteOnLetter, pitchClass } from './note.ts';

const kept = new WeakMap<Key, Map<number, Key>>();

/**
 * The key so many semitones higher, or lower for a negative number, under the name with the fewest signs: four below A flat major is
 * E major. The same value every time, so that it can be compared.
 */
export function keyMovedBy(key: Key, semitones: number): Key {
  const by = ((semitones % 12) + 12) % 12;
  if (by === 0) return key;
  const known = kept.get(key) ?? new Map<number, Key>();
  kept.set(key, known);
  const moved = known.get(by) ?? fewestSigns(key, by);
  known.set(by, moved);
  return moved;
}

function fewestSigns(key: Key, by: number): Key {
  const sound = (pitchClass(key.tonic) + by) % 12;
  const usual: Key = { ...key, tonic: spellPitchClass(sound) };
  const signs = (one: Key) => Math.abs(keySignature(one));
  // G sharp minor is read more easily than A flat minor.
  return LETTERS.map((letter): Key => ({ ...key, tonic: noteOnLetter(letter, sound) })).reduce(
    (best, other) => (signs(other) < signs(best) ? other : best),
    usual,
  );
}
