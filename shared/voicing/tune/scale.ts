import { nearest } from '../../text/nearest.ts';
import type { Outcome } from '../../text/problem.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { chordTones } from '../../theory/chord-symbol.ts';
import { type Key, printKey, scaleNotes } from '../../theory/key.ts';
import { accidentalAt, type Note, parseNote, pitchClass, printNote } from '../../theory/note.ts';
import { noteOfRole, type Role } from '../../theory/role.ts';
import { roleOnTop } from '../describe.ts';
import { SCALES } from './scale-table.ts';

/** The notes that a tune keeps to, from the home note up. */
export interface Scale {
  /** `E minor`, `A minor pentatonic` */
  readonly name: string;
  readonly tonic: Note;
  /** By note, what it is to the home note; its degree is the number of the step. */
  readonly roles: readonly Role[];
  readonly notes: readonly Note[];
}

/** A note of a tune over a chord. */
export interface ToneOver {
  readonly note: Note;
  /** What it is to the root of the chord. */
  readonly role: Role;
  /** A tone that the chord's name promises. */
  readonly inChord: boolean;
}

/** By pitch class, 0 for C: what a tune may sound over a chord. */
export type TonesOver = readonly (ToneOver | undefined)[];

/** The seven notes of the key; a minor key in its natural form. */
export function scaleOfKey(key: Key): Scale {
  const facts = SCALES.find(({ name }) => name === key.mode);
  return { name: printKey(key), tonic: key.tonic, roles: facts?.roles ?? [], notes: scaleNotes(key) };
}

/** Reads `A minor pentatonic`, `D dorian`, `E harmonic minor`, `Em`. Spans in a fault count from the start of `text`. */
export function readScale(text: string): Outcome<Scale> {
  const [, head = '', rest = ''] = /^\s*(\S+)\s*(.*?)\s*$/u.exec(text) ?? [];
  const { end } = accidentalAt(head, 1);
  const tonic = parseNote(head.slice(0, end));
  const glued = head.slice(end);
  const named = (glued === 'm' ? `minor ${rest}` : `${glued} ${rest}`).trim().toLowerCase();
  const facts = SCALES.find(({ name }) => name === (named === '' ? 'major' : named));
  const span = { start: 0, end: text.length };
  if (!tonic.ok) {
    const message = `"${text}" is not a scale. Write the home note and the scale, as in A minor pentatonic.`;
    return { ok: false, problem: { code: 'scale.unreadable', message, span } };
  }
  const home = printNote(tonic.value);
  if (facts === undefined) {
    const names = SCALES.map(({ name }) => name);
    const near = nearest(named, names);
    const message = `"${named}" is not a scale known here. They are ${names.join(', ')}.`;
    const fault = { code: 'scale.unknown', message, span };
    return { ok: false, problem: near === undefined ? fault : { ...fault, instead: `${home} ${near}` } };
  }
  const notes = facts.roles.map((role) => noteOfRole(tonic.value, role));
  return { ok: true, value: { name: `${home} ${facts.name}`, tonic: tonic.value, roles: facts.roles, notes } };
}

/**
 * What a tune in the scale may sound over a chord. A note that the chord has raised or lowered is left out: over E7 in A minor there
 * is no G, for the chord has G sharp. `freely` lets the tones of the chord in that the scale does not have: that G sharp.
 */
export function tonesOver(scale: Scale, chord: ChordSymbol, freely: boolean): TonesOver {
  const tones: (ToneOver | undefined)[] = new Array(12).fill(undefined);
  const promised = chordTones(chord);
  const root = pitchClass(chord.root);
  for (const note of scale.notes) {
    const own = pitchClass(note);
    const clashes = promised.some((tone) => tone.note.letter === note.letter && pitchClass(tone.note) !== own);
    if (!clashes) tones[own] = { note, role: roleOnTop((own - root + 12) % 12), inChord: false };
  }
  for (const { note, role } of promised) {
    const own = pitchClass(note);
    if (freely || tones[own] !== undefined) tones[own] = { note, role, inChord: true };
  }
  return tones;
}
