import type { Fault, Outcome } from '../text/problem.ts';
import { CHORD_KINDS } from './chord-kinds.ts';
import type { ChordSymbol } from './chord-symbol.ts';
import { chordSymbol } from './chord-symbol.ts';
import { MODES, type ModeName, PLAIN_SPELLING } from './modes.ts';
import type { AccidentalStyle, Note, Pitch } from './note.ts';
import { accidentalAt, LETTERS, noteOnLetter, parseNote, pitchClass, pitchNamed, printNote, sameNote } from './note.ts';
import { noteOfRole, rolePitchClass } from './role.ts';

/** The home note and the scale around it. */
export interface Key {
  readonly tonic: Note;
  readonly mode: ModeName;
}

/** Seven sharps and seven flats are all that a staff can sign. Source: any theory primer, common practice. */
const MOST_SIGNS = 7;

/** Reads `E minor`, `Em`, `Bb`, `B♭ major`, `D dorian`, `F# Mixolydian`. Spans in a fault count from the start of `text`. */
export function parseKey(text: string): Outcome<Key> {
  const match = /^(\S+?)(?:\s+(\S.*?)|(m|min|maj|M|-))?\s*$/u.exec(text);
  const head = match?.[1] ?? '';
  const { end } = accidentalAt(head, 1);
  const tonic = parseNote(head.slice(0, end));
  if (match === null || !tonic.ok) {
    const fault = keyFault(
      'key.unreadable',
      `"${text}" is not a key. Write the home note and the scale, as in E minor or Bb major.`,
      text,
    );
    if (match !== null && /^h$/i.test(head)) {
      // The German names of notes, common practice, no source.
      const scale = match[2] ?? match[3] ?? 'major';
      const message = 'The German name H is B here; the German B is written Bb.';
      return { ok: false, problem: { ...fault, message, instead: scale === 'm' ? 'Bm' : `B ${scale}` } };
    }
    const capital = text.charAt(0).toUpperCase() + text.slice(1);
    const readable = /^[a-g]/.test(text) && parseKey(capital).ok;
    return { ok: false, problem: readable ? { ...fault, instead: capital } : fault };
  }
  const word = match[2] ?? match[3] ?? head.slice(end);
  const mode = modeNamed(word);
  if (mode === undefined) {
    const names = MODES.map((facts) => facts.mode).join(', ');
    const start = text.indexOf(word, end);
    const message = `"${word}" is not a scale that keys are named after. They are ${names}.`;
    const near = MODES.find((facts) => word.length >= 3 && facts.mode.startsWith(word.slice(0, 3).toLowerCase()));
    const fault = { code: 'key.no-such-scale', message, span: { start, end: start + word.length } };
    if (near === undefined) return { ok: false, problem: fault };
    return { ok: false, problem: { ...fault, instead: `${head.slice(0, end)} ${near.mode}` } };
  }
  const key = { tonic: tonic.value, mode };
  if (Math.abs(keySignature(key)) <= MOST_SIGNS) return { ok: true, value: key };
  const instead = printKey({ tonic: plainSpelling(pitchClass(key.tonic)), mode });
  const message = `${printKey(key)} needs more than seven signs on the staff; the same sound is written ${instead}.`;
  return { ok: false, problem: { ...keyFault('key.too-many-signs', message, text), instead } };
}

/** `E minor`; with signs `B♭ major`. */
export function printKey(key: Key, style: AccidentalStyle = 'letters'): string {
  return `${printNote(key.tonic, style)} ${key.mode}`;
}

/** Sharps (positive) or flats (negative) of the key, −7 to 7 for every key that `parseKey` accepts. */
export function keySignature(key: Key): number {
  return fifthsFromC(key.tonic) + modeFacts(key.mode).fifths;
}

/** The seven notes of the key from the tonic up; a minor key in its natural form. */
export function scaleNotes(key: Key): readonly Note[] {
  return modeFacts(key.mode).roles.map((role) => noteOfRole(key.tonic, role));
}

/**
 * The chords that the scale makes by stacking thirds: triads on every degree, then sevenths.
 * A minor key also has its dominant with the raised leading note (B and B7 in E minor), last in each group.
 */
export function diatonicChords(key: Key): readonly ChordSymbol[] {
  const triads = stackedThirds(key, 3);
  const sevenths = stackedThirds(key, 4);
  if (key.mode !== 'minor') return [...triads, ...sevenths];
  const dominant = noteOfRole(key.tonic, { degree: 5, alter: 0 });
  return [
    ...triads,
    chordSymbol(dominant, { kind: 'major' }),
    ...sevenths,
    chordSymbol(dominant, { kind: 'dominant' }),
  ];
}

/** Every second note of the scale from each of its degrees, so many to a chord. */
function stackedThirds(key: Key, size: number): readonly ChordSymbol[] {
  const scale = scaleNotes(key);
  return scale.flatMap((root, degree) => {
    const tones = Array.from({ length: size }, (_, third) => scale[(degree + 2 * third) % scale.length] ?? root);
    const above = tones.map((note) => (pitchClass(note) - pitchClass(root) + 12) % 12).join();
    const kind = CHORD_KINDS.find(({ roles }) => roles.map(rolePitchClass).join() === above)?.kind;
    return kind === undefined ? [] : [chordSymbol(root, { kind })];
  });
}

/**
 * The usual name of a pitch class. In a key: the scale's own note, else the nearest on the circle of fifths, so that
 * D minor has B♭ and its leading note C♯. Without a key: C C♯ D E♭ E F F♯ G A♭ A B♭ B.
 */
export function spellPitchClass(wanted: number, key?: Key): Note {
  const sound = ((wanted % 12) + 12) % 12;
  if (key === undefined) return plainSpelling(sound);
  const own = scaleNotes(key).find((note) => pitchClass(note) === sound);
  if (own !== undefined) return own;
  const leading = noteOfRole(key.tonic, { degree: 7, alter: 0 });
  if (isMinorLike(key) && pitchClass(leading) === sound) return leading;
  // A major key borrows down to its lowered sixth and up to its raised first; a minor key one step further up.
  const flattest = keySignature(key) - (isMinorLike(key) ? 3 : 4);
  const spelled = LETTERS.map((letter) => noteOnLetter(letter, sound)).find((note) => {
    const fifths = fifthsFromC(note);
    return Math.abs(note.accidental) <= 1 && fifths >= flattest && fifths < flattest + 12;
  });
  const odd = spelled === undefined || ['B#', 'E#', 'Cb', 'Fb'].includes(printNote(spelled));
  return odd ? plainSpelling(sound) : spelled;
}

/** The pitch of a MIDI note number, spelled as its key spells it. */
export function spellMidi(midi: number, key?: Key): Pitch {
  return pitchNamed(spellPitchClass(midi % 12, key), midi);
}

/** True when the note, as spelled, belongs to the scale of the key. */
export function inKey(note: Note, key: Key): boolean {
  return scaleNotes(key).some((own) => sameNote(own, note));
}

/** True when the scale has a minor third. */
function isMinorLike(key: Key): boolean {
  return modeFacts(key.mode).roles.some((role) => role.degree === 3 && rolePitchClass(role) === 3);
}

/** Steps on the circle of fifths from C: G is 1, F is −1, F♯ is 6. */
function fifthsFromC(note: Note): number {
  return ['F', 'C', 'G', 'D', 'A', 'E', 'B'].indexOf(note.letter) - 1 + 7 * note.accidental;
}

function plainSpelling(sound: number): Note {
  return PLAIN_SPELLING[sound] ?? { letter: 'C', accidental: 0 };
}

function modeFacts(mode: ModeName): (typeof MODES)[number] {
  return MODES.find((facts) => facts.mode === mode) ?? MODES[0];
}

function modeNamed(word: string): ModeName | undefined {
  if (word === '' || word === 'M') return 'major';
  if (word === 'm' || word === '-') return 'minor';
  const small = word.toLowerCase();
  return MODES.find((facts) => facts.mode === small || (small.length === 3 && facts.mode.startsWith(small)))?.mode;
}

function keyFault(code: string, message: string, text: string): Fault {
  return { code, message, span: { start: 0, end: text.length } };
}
