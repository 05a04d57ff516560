import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { chordTones } from '../../theory/chord-symbol.ts';
import { type Key, keySignature, scaleNotes, spellPitchClass } from '../../theory/key.ts';
import { type Note, pitchClass } from '../../theory/note.ts';
import { noteOfRole, rolePitchClass } from '../../theory/role.ts';

/**
 * How much it says for a key that its own chord stands first or last. Unit: chords that fit. Common practice, no source: music ends
 * at home, and most of it begins there.
 */
const HOME = { first: 0.5, last: 0.75 } as const;

/**
 * The major or minor key that most of the chords belong to, where nobody says it; of equals the one with fewer signs. A minor key has
 * its raised leading note too, which its dominant chord needs.
 */
export function keyOfChords(chords: readonly ChordSymbol[]): Key {
  const keys = Array.from({ length: 12 }, (_, sound) => spellPitchClass(sound)).flatMap((tonic): readonly Key[] => [
    { tonic, mode: 'major' },
    { tonic, mode: 'minor' },
  ]);
  let best: Key = { tonic: { letter: 'C', accidental: 0 }, mode: 'major' };
  let most = Number.NEGATIVE_INFINITY;
  for (const key of keys) {
    const signs = Math.abs(keySignature(key));
    if (signs > 7) continue;
    const fit = fitOf(key, chords) - signs / 1000;
    if (fit <= most) continue;
    best = key;
    most = fit;
  }
  return best;
}

function fitOf(key: Key, chords: readonly ChordSymbol[]): number {
  const leading = key.mode === 'minor' ? [noteOfRole(key.tonic, { degree: 7, alter: 0 })] : [];
  const notes: readonly Note[] = [...scaleNotes(key), ...leading];
  const own = new Set(notes.map(pitchClass));
  let fit = 0;
  for (const chord of chords) {
    const tones = chordTones(chord);
    fit += tones.filter(({ note }) => own.has(pitchClass(note))).length / tones.length;
  }
  const [first, last] = [chords[0], chords.at(-1)];
  if (first !== undefined && isHome(first, key)) fit += HOME.first;
  if (last !== undefined && isHome(last, key)) fit += HOME.last;
  return fit;
}

function isHome(chord: ChordSymbol, key: Key): boolean {
  const third = chordTones(chord).find(({ role }) => role.degree === 3);
  const wanted = key.mode === 'minor' ? 3 : 4;
  return (
    pitchClass(chord.root) === pitchClass(key.tonic) && third !== undefined && rolePitchClass(third.role) === wanted
  );
}
