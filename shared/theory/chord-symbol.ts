import type { Outcome } from '../text/problem.ts';
import { chordKindFacts } from './chord-kinds.ts';
import type { ChordParts } from './chord-parts.ts';
import { canonicalParts, hasSeventh, rolesOfParts } from './chord-parts.ts';
import { readSuffix } from './chord-suffix.ts';
import type { AccidentalStyle, Note } from './note.ts';
import { accidentalAt, LETTERS, parseNote, printNote, sameNote } from './note.ts';
import type { Role } from './role.ts';
import { noteOfRole, printRole, sameRole } from './role.ts';

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
 * Spans in a fault count from the start of `text`.
 */
export function parseChordSymbol(text: string): Outcome<ChordSymbol> {
  const head = text.charAt(0);
  const letter = LETTERS.find((candidate) => candidate === head);
  if (letter === undefined) return withoutRoot(text);
  const { accidental, end } = accidentalAt(text, 1);
  const root = { letter, accidental };
  const { suffix, bassText } = cutBass(text.slice(end));
  const bass = bassText === undefined ? undefined : parseNote(bassText);
  if (bass !== undefined && !bass.ok) {
    const message = 'Behind the stroke stands the bass note, as in G/B.';
    const span = { start: end + suffix.length, end: text.length };
    return { ok: false, problem: { code: 'chord.bass-unreadable', message, span } };
  }
  if (suffix === '2') return twoReadings(text, readingsOfTwo(root, bass?.value));
  if (/^(m|min|-)?4$/.test(suffix)) return withoutSus(text, end, suffix);
  const parts = readSuffix(suffix);
  if (!parts.ok) {
    const { problem } = parts;
    const moved = { ...problem, span: { start: problem.span.start + end, end: problem.span.end + end } };
    if (problem.instead === undefined) return { ok: false, problem: moved };
    return { ok: false, problem: { ...moved, instead: text.slice(0, end) + problem.instead } };
  }
  const symbol = { root, ...parts.value, text };
  return {
    ok: true,
    value: bass === undefined || sameNote(bass.value, root) ? symbol : { ...symbol, bass: bass.value },
  };
}

/** Every chord that the name is used for: two for `C2` (Csus2 and C(add9)), else one, or none where it is no chord name. */
export function chordReadings(text: string): readonly ChordSymbol[] {
  const only = parseChordSymbol(text);
  if (only.ok) return [only.value];
  const root = only.problem.code === 'chord.two-readings' ? parseChordSymbol(text.replace(/2(?=$|\/)/, '')) : only;
  return root.ok ? readingsOfTwo(root.value.root, root.value.bass) : [];
}

function readingsOfTwo(root: Note, bass: Note | undefined): readonly ChordSymbol[] {
  const additions = [{ degree: 9, alter: 0 }];
  return [chordSymbol(root, { kind: 'suspended-second' }, bass), chordSymbol(root, { kind: 'major', additions }, bass)];
}

/** The canonical spelling: `Em`, `Cmaj7`, `F#m7b5`, `G/B`, `D(add9)`, `G6/9`, `Edim7`, `Eaug`. */
export function printChordSymbol(symbol: Omit<ChordSymbol, 'text'>, style: AccidentalStyle = 'letters'): string {
  const bare = chordKindFacts(symbol.kind).suffix;
  const suffix = style === 'signs' ? bare.replace(/b(?=\d)/g, '♭') : bare;
  // "C(b5)" needs its brackets: "Cb5" is the power chord on C flat.
  const bracketed = !hasSeventh(symbol.kind);
  const alterations = symbol.alterations.map((role) => {
    const printed = printRole(role, style);
    return bracketed ? `(${printed})` : printed;
  });
  // A bare "add7" would be heard as the flat seventh.
  const additions = symbol.additions.map((role) => `(add${role.degree === 7 ? 'maj' : ''}${printRole(role, style)})`);
  const omissions = symbol.omissions.map((role) => `(no${role.degree})`);
  const bass = symbol.bass === undefined ? '' : `/${printNote(symbol.bass, style)}`;
  return [printNote(symbol.root, style), suffix, ...alterations, ...additions, ...omissions, bass].join('');
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

/** The bass stands behind the last stroke, when a letter follows it: the stroke of `6/9` and of `m/maj7` is none. */
function cutBass(rest: string): { readonly suffix: string; readonly bassText?: string } {
  const stroke = rest.lastIndexOf('/');
  if (stroke < 0) return { suffix: rest };
  const after = rest.slice(stroke + 1);
  if (/^[\s]*(\d|[b#♭♯]\d|maj|Maj|M7|△|Δ|∆)/.test(after)) return { suffix: rest };
  return { suffix: rest.slice(0, stroke), bassText: after };
}

function withoutRoot(text: string): Outcome<never> {
  const span = { start: 0, end: text.length };
  const small = /^[a-g]/.test(text);
  // A small letter alone is how some write a minor chord; with more behind it, only the capital is missing.
  const capital = text.charAt(0).toUpperCase() + text.slice(1);
  const minor = /^[a-g][b#♭♯]?$/.test(text) ? `${capital}m` : capital;
  if (small && text.length > 0 && parseChordSymbol(minor).ok) {
    const message = `A chord name begins with a capital letter: ${minor}.`;
    return { ok: false, problem: { code: 'chord.small-letter', message, span, instead: minor } };
  }
  const german = /^[Hh](.*)$/u.exec(text);
  if (german !== null && parseChordSymbol(`B${german[1] ?? ''}`).ok) {
    const instead = `B${german[1] ?? ''}`;
    const message = `The note below C is called B here: ${instead}.`;
    return { ok: false, problem: { code: 'chord.german-letter', message, span, instead } };
  }
  const message = `"${text}" is not a chord name: it begins with a letter from A to G, as in Em, Cmaj7 or G/B.`;
  return { ok: false, problem: { code: 'chord.without-root', message, span } };
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

function withoutSus(text: string, end: number, suffix: string): Outcome<never> {
  const instead = `${text.slice(0, end)}sus4${text.slice(end + suffix.length)}`;
  const message = `The chord in which the fourth stands for the third is written ${instead}.`;
  return {
    ok: false,
    problem: { code: 'chord.four-alone', message, span: { start: end, end: end + suffix.length }, instead },
  };
}
