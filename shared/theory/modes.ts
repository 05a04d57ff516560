import type { Note } from './note.ts';
import type { Role } from './role.ts';

export type ModeName =
  | 'major'
  | 'minor'
  | 'ionian'
  | 'dorian'
  | 'phrygian'
  | 'lydian'
  | 'mixolydian'
  | 'aeolian'
  | 'locrian';

export interface ModeFacts {
  readonly mode: ModeName;
  /** Signs of the mode on C: dorian on C has two flats. */
  readonly fifths: number;
  readonly roles: readonly Role[];
}

function mode(name: ModeName, fifths: number, alters: readonly number[]): ModeFacts {
  return { mode: name, fifths, roles: alters.map((alter, at) => ({ degree: at + 1, alter })) };
}

/** How each scale differs from the major scale on the same note. Source: definition of the church modes, any theory primer. */
export const MODES: readonly [ModeFacts, ...ModeFacts[]] = [
  mode('major', 0, [0, 0, 0, 0, 0, 0, 0]),
  mode('minor', -3, [0, 0, -1, 0, 0, -1, -1]),
  mode('ionian', 0, [0, 0, 0, 0, 0, 0, 0]),
  mode('dorian', -2, [0, 0, -1, 0, 0, 0, -1]),
  mode('phrygian', -4, [0, -1, -1, 0, 0, -1, -1]),
  mode('lydian', 1, [0, 0, 0, 1, 0, 0, 0]),
  mode('mixolydian', -1, [0, 0, 0, 0, 0, 0, -1]),
  mode('aeolian', -3, [0, 0, -1, 0, 0, -1, -1]),
  mode('locrian', -5, [0, -1, -1, 0, -1, -1, -1]),
];

/** What a pitch class is called where no key says otherwise, from C up. Source: common practice, no source. */
export const PLAIN_SPELLING: readonly Note[] = [
  { letter: 'C', accidental: 0 },
  { letter: 'C', accidental: 1 },
  { letter: 'D', accidental: 0 },
  { letter: 'E', accidental: -1 },
  { letter: 'E', accidental: 0 },
  { letter: 'F', accidental: 0 },
  { letter: 'F', accidental: 1 },
  { letter: 'G', accidental: 0 },
  { letter: 'A', accidental: -1 },
  { letter: 'A', accidental: 0 },
  { letter: 'B', accidental: -1 },
  { letter: 'B', accidental: 0 },
];
