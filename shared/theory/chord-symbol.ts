import type { Outcome } from '../text/problem.ts';
import { Remembered } from '../text/remembered.ts';
import type { ChordParts } from './chord-parts.ts';
import { canonicalParts, rolesOfParts } from './chord-parts.ts';
import { respellings, suffixesMeant } from './chord-respelling.ts';
import { CHORD_STYLES, type ChordStyle, printSuffix } from './chord-style.ts';
import { readSuffix } from './chord-suffix.ts';
import type { Note } from './note.ts';
import { accidentalAt, LETTERS, parseNote, printNote, sameNote } from './note.ts';
import type { Role } from './role.ts';
import { noteOfRole, sameRole } from './role.ts';

/** A chord as a name says it. Two symbols with the same parts are the same chord, however they were written. */
export interface ChordSymbol extends ChordParts {
  readonly root: Note;
  /** The note written behind the stroke of `G/B`. */
  readonly bass?: Note;
  /** As it was written. */
  readonly text: string;
}

/** One tone of a chord: what it is to the root, and how it is spelled. */
export interface Tone {
  readonly role: Role;
  readonly note: Note;
}

/** The symbol of these parts over this root, in its one canonical form and with its canonical text. */
export function chordSymbol(
  root: Note,
  parts: Partial<ChordParts> & Pick<ChordParts, 'kind'>,
  bass?: Note,
): ChordSymbol {
  const canonical = canonicalParts({ alterations: [], additions: [], omissions: [], ...parts });
  const bare = { root, ...canonical, text: '' };
  const symbol = bass === undefined || sameNote(bass, root) ? bare : { ...bare, bass };
  return { ...symbol, text: printChordSymbol(symbol) };
}

/**
 * Reads a chord name in any spelling the trade uses: `E-`, `C△7`, `B♭`, `F#ø`, `D(add9)`, `C7#5b9`, `G/B`.
 * `NC` is not a chord. `C2`, which is written for two different chords, is answered with both; see `chordReadings`.
 * Where one slip keeps the text from being a name, `instead` holds the name without it. Spans count from the start of `text`.
 */
export function parseChordSymbol(text: string): Outcome<ChordSymbol> {
  return parsed.get(text, () => readOrMended(text));
}

// What names mean depends on nothing but the names, and a lesson has few of them, read again and again.
const parsed = new Remembered<string, Outcome<ChordSymbol>>(2000);

function readOrMended(text: string): Outcome<ChordSymbol> {
  const read = readName(text);
  if (read.ok || read.problem.instead !== undefined) return read;
  const mended = respellings(text).find((candidate) => readName(candidate.text).ok);
  if (mended === undefined) return read;
  const { message, span } = mended;
  return { ok: false, problem: { code: read.problem.code, message, span, instead: mended.text } };
}

/** Every chord that the name is used for: two for `C2` (Csus2 and C(add9)), else one, or none where it is no chord name. */
export function chordReadings(text: string): readonly ChordSymbol[] {
  const only = parseChordSymbol(text);
  if (only.ok) return [only.value];
  const pieces = cutName(plainSigns(text));
  return pieces === undefined ? [] : readingsOf(pieces);
}

/** The canonical spelling: `Em`, `Cmaj7`, `F#m7b5`, `G/B`, `D(add9)`, `G6/9`, `Edim7`, `Eaug`; in another style `C△7`, `Fø7`. */
export function printChordSymbol(symbol: Omit<ChordSymbol, 'text'>, style: ChordStyle = CHORD_STYLES.plain): string {
  const bass = symbol.bass === undefined ? '' : `/${printNote(symbol.bass, style.accidentals)}`;
  return printNote(symbol.root, style.accidentals) + printSuffix(symbol, style) + bass;
}

/** The tones that the name promises, root first, spelled by letter from the root. A bass note behind a stroke is not among them. */
export function chordTones(symbol: Omit<ChordSymbol, 'text'>): readonly Tone[] {
  return rolesOfParts(symbol).map((role) => ({ role, note: noteOfRole(symbol.root, role) }));
}

/** True when both say the same chord with the same spelling of its notes: `E+` and `Eaug`, but not `C#` and `Db`. */
export function sameChord(a: ChordSymbol, b: ChordSymbol): boolean {
  const sameRoles = (x: readonly Role[], y: readonly Role[]) =>
    x.length === y.length && x.every((role, at) => sameRole(role, y[at] ?? { degree: 0, alter: 0 }));
  const sameBass = a.bass === undefined || b.bass === undefined ? a.bass === b.bass : sameNote(a.bass, b.bass);
  return (
    sameNote(a.root, b.root) &&
    a.kind === b.kind &&
    sameBass &&
    sameRoles(a.alterations, b.alterations) &&
    sameRoles(a.additions, b.additions) &&
    sameRoles(a.omissions, b.omissions)
  );
}

/** A name without its reading: root, what follows it, and what stands behind the stroke. Offsets count from the start of the text. */
interface NamePieces {
  readonly root: Note;
  readonly suffix: string;
  readonly suffixStart: number;
  readonly bassText?: string;
}

/** How numbers and signs look when they were set high. The stand-ins keep every offset. */
const RAISED = new Map([...'⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻⁽⁾'].map((sign, at) => [sign, '0123456789+-()'.charAt(at)]));

function plainSigns(text: string): string {
  return /[⁰¹²³⁴-⁹⁺⁻⁽⁾]/.test(text) ? text.replace(/./gu, (sign) => RAISED.get(sign) ?? sign) : text;
}

/** Nothing where the text does not begin with the letter of a root. */
function cutName(text: string): NamePieces | undefined {
  const start = text.length - text.trimStart().length;
  const letter = LETTERS.find((candidate) => candidate === text.charAt(start));
  if (letter === undefined) return undefined;
  const { accidental, end } = accidentalAt(text, start + 1);
  return { root: { letter, accidental }, suffixStart: end, ...cutBass(text.slice(end)) };
}

/** Reads the name as it stands, without looking for a slip. */
function readName(written: string): Outcome<ChordSymbol> {
  const text = plainSigns(written);
  const pieces = cutName(text);
  if (pieces === undefined) return withoutRoot(text);
  const { root, suffix, suffixStart: end } = pieces;
  const bass = pieces.bassText === undefined ? undefined : parseNote(pieces.bassText.trim());
  if (bass !== undefined && !bass.ok) {
    const message = 'Behind the stroke stands the bass note, as in G/B.';
    const span = { start: end + suffix.length, end: text.length };
    return { ok: false, problem: { code: 'chord.bass-unreadable', message, span } };
  }
  const readings = readingsOf(pieces);
  const [only] = readings;
  if (readings.length > 1) return twoReadings(text, readings);
  if (only !== undefined) return { ok: true, value: { ...only, text: written } };
  if (FOUR_ALONE.test(suffix.trim())) return withoutSus(text, end, suffix);
  const parts = readSuffix(suffix);
  if (!parts.ok) {
    const { problem } = parts;
    const moved = { ...problem, span: { start: problem.span.start + end, end: problem.span.end + end } };
    if (problem.instead === undefined) return { ok: false, problem: moved };
    const instead = text.slice(0, end) + problem.instead + text.slice(end + suffix.length);
    return { ok: false, problem: { ...moved, instead } };
  }
  const symbol = { root, ...parts.value, text: written };
  return {
    ok: true,
    value: bass === undefined || sameNote(bass.value, root) ? symbol : { ...symbol, bass: bass.value },
  };
}

/** What an ambiguous name is written for, in canonical spelling; none where it has one meaning at most. */
function readingsOf({ root, suffix, bassText }: NamePieces): readonly ChordSymbol[] {
  const bass = bassText === undefined ? undefined : parseNote(bassText.trim());
  if (bass !== undefined && !bass.ok) return [];
  const on = (base: Note, meant: string) => {
    const parts = readSuffix(meant);
    return parts.ok ? [chordSymbol(base, parts.value, bass?.value)] : [];
  };
  // "A b5" is A with a flat fifth to one and the chord on A flat to another; where only one of them is a chord, it is that.
  const apart = /^\s+([b#♭♯]+)\s*(.*)$/.exec(suffix);
  if (apart !== null && root.accidental === 0) {
    const { accidental, end } = accidentalAt(apart[1] ?? '', 0);
    const glued = end === apart[1]?.length ? on({ ...root, accidental }, apart[2] ?? '') : [];
    return [...glued, ...on(root, suffix)];
  }
  return suffixesMeant(suffix.trim()).flatMap((meant) => on(root, meant));
}

/** The bass stands behind the last stroke, when a letter follows it: the stroke of `6/9` and of `m/maj7` is none. */
function cutBass(rest: string): { readonly suffix: string; readonly bassText?: string } {
  const stroke = rest.lastIndexOf('/');
  if (stroke < 0) return { suffix: rest };
  const after = rest.slice(stroke + 1);
  if (/^\s*(\d|[b#♭♯+-]\s*\d|[mM]aj|M[aA]?\d|MAJ|ma\d|[△Δ∆▵▲^])/.test(after)) return { suffix: rest };
  return { suffix: rest.slice(0, stroke), bassText: after };
}

function withoutRoot(text: string): Outcome<never> {
  const span = { start: 0, end: text.length };
  if (/^n\.?\s?c\.?$/i.test(text)) {
    const message = `${text} says that no chord is played, so it is not the name of one.`;
    return { ok: false, problem: { code: 'chord.without-root', message, span } };
  }
  const small = /^[a-g]/.test(text);
  // A small letter alone is how some write a minor chord; with more behind it, only the capital is missing.
  const capital = text.charAt(0).toUpperCase() + text.slice(1);
  const minor = small ? nearestName(/^[a-g][b#♭♯]?$/.test(text) ? `${capital}m` : capital) : undefined;
  if (minor !== undefined) {
    const message = `A chord name begins with a capital letter: ${minor}.`;
    return { ok: false, problem: { code: 'chord.small-letter', message, span, instead: minor } };
  }
  const german = /^[Hh](.*)$/u.exec(text);
  const called = german === null ? undefined : nearestName(`B${german[1] ?? ''}`);
  if (called !== undefined) {
    const message = `The note below C is called B here: ${called}.`;
    return { ok: false, problem: { code: 'chord.german-letter', message, span, instead: called } };
  }
  const message = `"${text}" is not a chord name: it begins with a letter from A to G, as in Em, Cmaj7 or G/B.`;
  return { ok: false, problem: { code: 'chord.without-root', message, span } };
}

/** The text where it is a chord name, or the name that is one slip away from it. */
function nearestName(text: string): string | undefined {
  const read = parseChordSymbol(text);
  return read.ok ? text : read.problem.instead;
}

function twoReadings(text: string, readings: readonly ChordSymbol[]): Outcome<never> {
  const said = readings.map((reading) => {
    const notes = chordTones(reading).map((tone) => printNote(tone.note));
    return `${reading.text} (${notes.join(' ')})`;
  });
  const first = readings[0];
  const message = `"${text}" is written for two chords, ${said.join(' and ')}. Say which one you mean.`;
  const fault = { code: 'chord.two-readings', message, span: { start: 0, end: text.length } };
  return { ok: false, problem: first === undefined ? fault : { ...fault, instead: first.text } };
}

/** `4` for sus4, alone or behind a number as in `7/4` and `7(4)`; an m before it is dropped, since the third is gone. */
const FOUR_ALONE = /^(?:m|mi|min|-|(maj7|M7|6|7|9|13)?\s*\/?)\s*(?:4|\(4\))$/;

function withoutSus(text: string, end: number, suffix: string): Outcome<never> {
  const number = FOUR_ALONE.exec(suffix.trim())?.[1] ?? '';
  const instead = `${text.slice(0, end)}${number}sus4${text.slice(end + suffix.length)}`;
  const message = `The chord in which the fourth stands for the third is written ${instead}.`;
  return {
    ok: false,
    problem: { code: 'chord.four-alone', message, span: { start: end, end: end + suffix.length }, instead },
  };
}
