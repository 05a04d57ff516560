import type { Instrument } from '../neck/instrument.ts';
import { soundingMidi } from '../neck/pitches.ts';
import type { Shape } from '../neck/shape.ts';
import { type ChordSymbol, chordTones } from '../theory/chord-symbol.ts';
import { pitchClass } from '../theory/note.ts';
import { printRole, type Role, rolePitchClass } from '../theory/role.ts';
import { fitName } from './fit.ts';

/** The role of every sounding string over the chord's root, in chart order. */
export function toneRoles(instrument: Instrument, shape: Shape, symbol: ChordSymbol): readonly (string | undefined)[] {
  const root = pitchClass(symbol.root);
  const named = new Map(chordTones(symbol).map(({ role }) => [rolePitchClass(role), role]));
  const foreign = new Map(
    fitName(instrument, shape, symbol).foreign.map(({ stringIndex, role }) => [stringIndex, role]),
  );
  return soundingMidi(instrument, shape).map((midi, index) => {
    if (midi === undefined) return undefined;
    const role: Role | undefined = named.get((midi - root + 120) % 12) ?? foreign.get(index);
    return role === undefined ? undefined : printRole(role);
  });
}
