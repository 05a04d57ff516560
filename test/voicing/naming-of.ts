import type { Instrument } from '../../shared/neck/instrument.ts';
import { soundingMidi } from '../../shared/neck/pitches.ts';
import { printNote } from '../../shared/theory/note.ts';
import { printRole } from '../../shared/theory/role.ts';
import type { ChordName } from '../../shared/voicing/naming.ts';
import { nameShape, tonesUnder } from '../../shared/voicing/naming.ts';
import { shape } from '../neck/playing.ts';
import { chord, key } from '../theory/reading.ts';

interface Around {
  readonly key?: string;
  readonly previous?: string;
  readonly next?: string;
}

/** The names of frets on an instrument, between the neighbours and in the key that are given. */
export function namesOf(on: Instrument, frets: string, around: Around = {}): readonly ChordName[] {
  return nameShape(on, shape(frets), {
    ...(around.key === undefined ? {} : { key: key(around.key) }),
    ...(around.previous === undefined ? {} : { previous: chord(around.previous) }),
    ...(around.next === undefined ? {} : { next: chord(around.next) }),
  });
}

/** `C9 (no 1)`: a name and the degrees that it leaves out. */
function told(name: ChordName): string {
  const omits = name.omits.map((role) => printRole(role)).join(' ');
  return omits === '' ? name.text : `${name.text} (no ${omits})`;
}

export function allTold(on: Instrument, frets: string, around: Around = {}): readonly string[] {
  return namesOf(on, frets, around).map(told);
}

export function firstTold(on: Instrument, frets: string, around: Around = {}): string | undefined {
  return allTold(on, frets, around)[0];
}

/** `G C E C`: the sounding notes as the best name spells them, in chart order. */
export function notesTold(on: Instrument, frets: string, around: Around = {}): string | undefined {
  const [name] = namesOf(on, frets, around);
  return (
    name &&
    tonesUnder(name, soundingMidi(on, shape(frets)))
      .map((tone) => printNote(tone.note))
      .join(' ')
  );
}
