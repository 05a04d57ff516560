import { intervalName } from '../theory/interval.ts';
import type { Key } from '../theory/key.ts';
import { spellPitchClass } from '../theory/key.ts';
import type { Note } from '../theory/note.ts';
import { letterAbove, noteOnLetter, pitchClass, printNote } from '../theory/note.ts';
import type { Role } from '../theory/role.ts';
import { noteOfRole } from '../theory/role.ts';

/** What sounds when it is too little for a chord. */
export type FewNotes =
  | { readonly kind: 'silence' }
  | { readonly kind: 'note'; readonly note: Note }
  | {
      readonly kind: 'interval';
      /** The lowest sounding note and the nearest other one above it. */
      readonly lower: Note;
      readonly upper: Note;
      /** `major third`, `perfect fourth`, `minor tenth`. */
      readonly interval: string;
    };

/** What the upper of two notes is to the lower where no key spells them. Source: common practice, no source. */
const ROLE_ABOVE: readonly (Role | undefined)[] = [
  undefined,
  { degree: 2, alter: -1 },
  { degree: 2, alter: 0 },
  { degree: 3, alter: -1 },
  { degree: 3, alter: 0 },
  { degree: 4, alter: 0 },
  { degree: 4, alter: 1 },
  { degree: 5, alter: 0 },
  { degree: 6, alter: -1 },
  { degree: 6, alter: 0 },
  { degree: 7, alter: -1 },
  { degree: 7, alter: 0 },
];

/**
 * Silence, one note, or two and the interval between them; nothing when three or more different notes sound, which is a chord.
 * Notes are MIDI numbers; nothing in the list stands for a muted string.
 */
export function fewNotesOf(midiNotes: readonly (number | undefined)[], key?: Key): FewNotes | undefined {
  const sounding = midiNotes.filter((midi) => midi !== undefined).sort((a, b) => a - b);
  const [lowest] = sounding;
  if (lowest === undefined) return { kind: 'silence' };
  const other = sounding.find((midi) => midi % 12 !== lowest % 12);
  const lower = spellPitchClass(lowest % 12, key);
  if (other === undefined) return { kind: 'note', note: lower };
  if (sounding.some((midi) => midi % 12 !== lowest % 12 && midi % 12 !== other % 12)) return undefined;
  const [from, to] =
    key === undefined ? plainlySpelled(lowest % 12, other % 12) : [lower, spellPitchClass(other % 12, key)];
  return { kind: 'interval', lower: from, upper: to, interval: intervalName(from, to, other - lowest) };
}

/** The two notes with as few accidentals as the interval allows: D flat and F, not C sharp and E sharp. */
function plainlySpelled(lower: number, upper: number): readonly [Note, Note] {
  const role = ROLE_ABOVE[(upper - lower + 12) % 12];
  const usual = spellPitchClass(lower);
  const flat = noteOnLetter(letterAbove(usual.letter, 1), lower);
  const pairs = [usual, flat].map((from): readonly [Note, Note] => [
    from,
    role === undefined ? spellPitchClass(upper) : noteOfRole(from, role),
  ]);
  const [first, second] = pairs;
  if (first === undefined || second === undefined) return [usual, spellPitchClass(upper)];
  return accidentalsOf(second) < accidentalsOf(first) ? second : first;
}

/** White-key notes written with an accidental count double: nobody writes E sharp who can write F. */
function accidentalsOf(notes: readonly Note[]): number {
  return notes.reduce((sum, note) => {
    const white = note.accidental !== 0 && spellPitchClass(pitchClass(note)).accidental === 0;
    return sum + Math.abs(note.accidental) + (white ? 1 : 0);
  }, 0);
}

/** `no string sounds`, `the note C`, `a major third, C and E`. */
export function tellFewNotes(few: FewNotes): string {
  switch (few.kind) {
    case 'silence':
      return 'no string sounds';
    case 'note':
      return `the note ${printNote(few.note)}`;
    case 'interval': {
      const article = /^[aeiou]/.test(few.interval) ? 'an' : 'a';
      return `${article} ${few.interval}, ${printNote(few.lower)} and ${printNote(few.upper)}`;
    }
  }
}
