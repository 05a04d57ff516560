import type { ChordKind } from '../theory/chord-kinds.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import { chordTones } from '../theory/chord-symbol.ts';
import type { Key } from '../theory/key.ts';
import { inKey, scaleNotes, spellPitchClass } from '../theory/key.ts';
import type { Note } from '../theory/note.ts';
import { letterAbove, noteOnLetter, pitchClass } from '../theory/note.ts';
import { noteOfRole } from '../theory/role.ts';
import type { Reading, Template } from './readings.ts';

/** What stands around a chord. */
interface Surroundings {
  readonly key?: Key;
  readonly previous?: ChordSymbol;
  readonly next?: ChordSymbol;
  readonly bassElsewhere?: Note;
}

/** How much surroundings speak for (negative) or against a reading. Unit: of difficulty. Common practice, no source. */
const COST = {
  sixthOnTonic: -1.5,
  sixthElsewhere: 1.3,
  tonic: -0.5,
  inScale: -0.3,
  rootlessOutOfScale: 0.5,
  leadingDiminished: -1.5,
  sameRoot: -1,
  suspendedOnSameRoot: -1.5,
  dominantToNext: -2.3,
  /** On top, where the root is silent: third and seventh resolve all the same. */
  rootlessToNext: -2.2,
  minorToNext: -1.3,
  tritoneSubstituteToNext: -1,
  plainToNext: -0.5,
  diminishedBelowNext: -2.5,
  triadBelowMinorNext: -2.9,
  triadBelowMajorNext: -2,
  diminishedAboveNext: -1.2,
};

const G_SHARP = 8;

const SIXTHS: readonly ChordKind[] = ['major-sixth', 'minor-sixth', 'six-nine', 'minor-six-nine'];

/**
 * What the surroundings add to the cost of a reading: a sixth chord is heard at home, a minor seventh elsewhere (C6 and Am7);
 * a dominant, also without its root, where the next root lies a fifth below; a diminished seventh takes the root a semitone
 * below the next; a suspension belongs to the root it resolves to.
 */
export function costInContext(reading: Reading, { key, previous, next }: Surroundings): number {
  let cost = 0;
  if (key !== undefined) cost += costInKey(reading, key);
  for (const neighbour of [previous, next]) {
    if (neighbour !== undefined && pitchClass(neighbour.root) === reading.rootPitchClass) {
      cost += isSuspended(reading) ? COST.suspendedOnSameRoot : COST.sameRoot;
    }
  }
  return next === undefined ? cost : cost + costBefore(reading, next);
}

/**
 * The root as these surroundings spell it: like the same note beside it; by the letter that leads to the next root (G♯7 before C♯m,
 * A♭7 before D♭); a passing diminished chord rises from a sharp and falls from a flat; else as the key has it.
 */
export function rootInContext(reading: Reading, { key, previous, next, bassElsewhere }: Surroundings): Note {
  const root = reading.rootPitchClass;
  for (const note of [bassElsewhere, next?.root, previous?.root]) {
    if (note !== undefined && pitchClass(note) === root) return note;
  }
  const steps = next === undefined ? undefined : stepsFromNext(reading, pitchClass(next.root));
  if (next !== undefined && steps !== undefined) {
    const note = noteOnLetter(letterAbove(next.root.letter, steps), root);
    if (Math.abs(note.accidental) <= 1) return note;
  }
  return key === undefined ? plainRoot(reading) : rootInKey(reading, key);
}

/**
 * Where the key says nothing, a black key is spelled the usual way, which is C♯ and A♭; but it is G♯m, and another spelling where the
 * usual one writes two white keys or more under another letter: D♭maj7, whose C♯ would bring an E♯ and a B♯. Common practice, no source.
 */
function plainRoot({ rootPitchClass, template }: Reading): Note {
  const usual = spellPitchClass(rootPitchClass);
  const minor = template.roleAt[3]?.degree === 3;
  if (minor && rootPitchClass === G_SHARP) return { letter: 'G', accidental: 1 };
  const odd = template.roles.filter((role) => isOdd(noteOfRole(usual, role))).length;
  if (usual.accidental === 0 || odd < 2) return usual;
  const other = noteOnLetter(letterAbove(usual.letter, usual.accidental > 0 ? 1 : -1), rootPitchClass);
  return signsOver(other, template) < signsOver(usual, template) ? other : usual;
}

/** A white key under the letter of another one: E♯, C♭, B double flat. */
function isOdd(note: Note): boolean {
  return note.accidental !== 0 && spellPitchClass(pitchClass(note)).accidental === 0;
}

/** How many signs a reading needs where nothing stands around it: of chords that divide the octave evenly the simplest goes first. */
export function signsOfReading(reading: Reading): number {
  return signsOver(plainRoot(reading), reading.template);
}

/** Signs that the tones of the chord need over this root; a white key under a black one's name counts as one more. */
function signsOver(root: Note, { roles }: Template): number {
  return roles.reduce((sum, role) => {
    const note = noteOfRole(root, role);
    return sum + Math.abs(note.accidental) + (isOdd(note) ? 1 : 0);
  }, 0);
}

/**
 * The root that lets most tones of the chord stand as the key writes them, double accidentals and the like counting against it:
 * E♯m7♭5 in B major, but B♭ there for the major chord on the same key as A♯. Of equals the usual one.
 */
function rootInKey({ rootPitchClass, template }: Reading, key: Key): Note {
  const byTemplate = rootsInKeys.get(key) ?? new Map<Template, (Note | undefined)[]>();
  rootsInKeys.set(key, byTemplate);
  const roots = byTemplate.get(template) ?? [];
  byTemplate.set(template, roots);
  const root = roots[rootPitchClass] ?? bestRootInKey(rootPitchClass, template, key);
  roots[rootPitchClass] = root;
  return root;
}

/** Roots by chord and pitch class; kept as long as somebody holds the key. */
const rootsInKeys = new WeakMap<Key, Map<Template, (Note | undefined)[]>>();

function bestRootInKey(rootPitchClass: number, template: Template, key: Key): Note {
  const usual = spellPitchClass(rootPitchClass, key);
  const worth = (root: Note) =>
    template.roles.reduce((sum, role) => sum + worthInKey(noteOfRole(root, role), key), root === usual ? 0.5 : 0);
  let best = usual;
  for (const steps of [-1, 1]) {
    const other = noteOnLetter(letterAbove(usual.letter, steps), rootPitchClass);
    if (Math.abs(other.accidental) <= 1 && worth(other) > worth(best)) best = other;
  }
  return best;
}

function worthInKey(note: Note, key: Key): number {
  if (inKey(note, key)) return 1;
  const doubled = Math.abs(note.accidental) > 1;
  const white = note.accidental !== 0 && spellPitchClass(pitchClass(note)).accidental === 0;
  return (doubled ? -2 : 0) + (white ? -1 : 0);
}

/** Letters from the next root up to a root that leads to it. */
function stepsFromNext(reading: Reading, next: number): number | undefined {
  const above = (reading.rootPitchClass - next + 12) % 12;
  if (above === 7) return 4;
  const diminished = isDiminishedSeventh(reading) || isDiminishedTriad(reading);
  if (above === 11 && diminished) return -1;
  return above === 1 && (diminished || isDominant(reading)) ? 1 : undefined;
}

/** Bit n is set when the scale has the pitch class n; kept as long as somebody holds the key. */
const scaleMasks = new WeakMap<Key, number>();

function scaleMaskOf(key: Key): number {
  const known = scaleMasks.get(key);
  if (known !== undefined) return known;
  const mask = scaleNotes(key).reduce((sum, note) => sum | (1 << pitchClass(note)), 0);
  scaleMasks.set(key, mask);
  return mask;
}

function costInKey(reading: Reading, key: Key): number {
  const root = reading.rootPitchClass;
  const tonic = pitchClass(key.tonic);
  if (SIXTHS.includes(reading.template.parts.kind)) return root === tonic ? COST.sixthOnTonic : COST.sixthElsewhere;
  const inScale = (scaleMaskOf(key) & (1 << root)) !== 0;
  let cost = inScale ? COST.inScale : 0;
  if (root === tonic) cost += COST.tonic;
  if (reading.rootless && !inScale) cost += COST.rootlessOutOfScale;
  if (isDiminishedSeventh(reading) && (root + 1) % 12 === tonic) cost += COST.leadingDiminished;
  return cost;
}

function costBefore(reading: Reading, following: ChordSymbol): number {
  const root = reading.rootPitchClass;
  const next = pitchClass(following.root);
  if (isDiminishedSeventh(reading)) {
    if ((root + 1) % 12 === next) return COST.diminishedBelowNext;
    return root === (next + 1) % 12 ? COST.diminishedAboveNext : 0;
  }
  if ((root + 11) % 12 === next && isTritoneSubstitute(reading)) return COST.tritoneSubstituteToNext;
  // Before a major chord its three notes are rather heard as the dominant that they are part of.
  if (isDiminishedTriad(reading) && (root + 1) % 12 === next) {
    return isMinor(following) ? COST.triadBelowMinorNext : COST.triadBelowMajorNext;
  }
  if ((root + 5) % 12 !== next || SIXTHS.includes(reading.template.parts.kind)) return 0;
  const { roleAt } = reading.template;
  const third = roleAt[4] !== undefined;
  const driving = roleAt[10] !== undefined || roleAt[8] !== undefined;
  if (driving && third) return COST.dominantToNext + (isTritoneAlone(reading) ? COST.rootlessToNext : 0);
  if (isSuspended(reading)) return roleAt[10] === undefined ? 0 : COST.dominantToNext;
  return third ? COST.plainToNext : COST.minorToNext;
}

function isDiminishedSeventh(reading: Reading): boolean {
  return reading.template.parts.kind === 'diminished-seventh';
}

/** A dominant with ♭5 or ♯11 stands for the one a tritone away, with which it shares four notes, and falls by a semitone. */
function isTritoneSubstitute(reading: Reading): boolean {
  const { roleAt } = reading.template;
  return roleAt[6] !== undefined && isDominant(reading);
}

function isMinor(symbol: ChordSymbol): boolean {
  return chordTones(symbol).some(({ role }) => role.degree === 3 && role.alter === -1);
}

function isDominant({ template: { roleAt } }: Reading): boolean {
  return roleAt[4] !== undefined && roleAt[10] !== undefined;
}

function isDiminishedTriad({ template }: Reading): boolean {
  return template.parts.kind === 'diminished' && template.parts.additions.length === 0;
}

/** A dominant of which the root is silent and its third and seventh are not: they carry it. */
function isTritoneAlone({ rootless, omits, template }: Reading): boolean {
  return rootless && template.roleAt[10] !== undefined && !omits.some((role) => role.degree === 3);
}

function isSuspended(reading: Reading): boolean {
  return reading.template.parts.kind.includes('suspended');
}
