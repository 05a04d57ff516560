import * as library from 'chord-symbol/lib/chord-symbol.js';
import { Chord, ChordType, Note as TonalNote } from 'tonal';
import { chordTones, parseChordSymbol } from '../../shared/theory/chord-symbol.ts';
import type { Note } from '../../shared/theory/note.ts';
import { accidentalAt, LETTERS, pitchClass } from '../../shared/theory/note.ts';
import type { ReaderName } from './reader-reasons.ts';
import { REASONS } from './reader-reasons.ts';
import { SPELLINGS } from './spellings.ts';

/** A spelling in which an outside reader hears other notes than we do. */
export interface Disagreement {
  readonly reader: ReaderName;
  readonly spelling: string;
  /** Semitones above the root within one octave, the bass among them, rising. */
  readonly theirs: readonly number[];
  /** The same; `undefined` where we do not take the spelling for one chord but ask or refuse. */
  readonly ours: readonly number[] | undefined;
  /** Why; `undefined` where nobody has looked yet, and then the test fails. */
  readonly reason: string | undefined;
}

/** How many of the spellings a reader knows at all, and in how many of those it hears the notes that we hear. */
export interface ReaderFigures {
  readonly reader: ReaderName;
  readonly spellings: number;
  readonly read: number;
  readonly agreed: number;
}

const READERS: readonly ReaderName[] = ['tonal', 'chord-symbol'];

/** Where every spelling on C is written too. */
const OTHER_ROOTS: readonly string[] = ['F#', 'Bb'];

const readWithChordSymbol = chordSymbolReader();

/** Names that we ask about, since they are written for two chords: what do the others take them for? */
const ASKED: readonly string[] = [
  'C2',
  'C^',
  'Cadd7',
  'CMm7',
  'C9/6',
  'C96',
  'C7-',
  'C+9',
  'Cmsus4',
  'Cm7sus4',
  'Cmsus2',
  'Cm7sus2',
];

/** What is compared: our table of spellings, what we ask about, and every spelling that tonal lists for its own chords. */
const TABLE: readonly string[] = [
  ...new Set([
    ...SPELLINGS.flatMap(([, , written]) => written),
    ...ASKED,
    ...ChordType.all().flatMap(({ aliases }) => aliases.map((alias) => `C${alias}`)),
  ]),
];

/** Each spelling of the table with those on C moved to the other roots; `on` is the table's own spelling, which the reasons name. */
const WRITTEN: readonly { readonly text: string; readonly on: string }[] = TABLE.flatMap((on) => {
  // A blank or sign behind the C would make one word with the root, and a bass would not move with the letter.
  const moves = /^C(?![\s♮b#])/.test(on) && !/\/[A-G]/.test(on);
  const moved = moves ? OTHER_ROOTS.map((root) => ({ text: root + on.slice(1), on })) : [];
  return [{ text: on, on }, ...moved];
});

/** Every disagreement of both readers over the table of spellings, once per spelling however many roots show it. */
export function readerDisagreements(): readonly Disagreement[] {
  return READERS.flatMap((reader) => {
    const reasons = new Map(
      REASONS.filter(([of]) => of === reader).flatMap(([, why, texts]) => texts.map((text) => [text, why])),
    );
    const found = new Map<string, Disagreement>();
    for (const { text, on } of WRITTEN) {
      const theirs = heardBy(reader, text);
      const ours = heardByUs(text);
      if (theirs === undefined || theirs.join() === ours?.join() || found.has(on)) continue;
      found.set(on, { reader, spelling: on, theirs, ours, reason: reasons.get(on) });
    }
    return [...found.values()];
  });
}

/** The figures of each reader over all spellings and roots. */
export function readerFigures(): readonly ReaderFigures[] {
  return READERS.map((reader) => {
    const heard = WRITTEN.map(({ text }) => [heardBy(reader, text)?.join(), heardByUs(text)?.join()]);
    const read = heard.filter(([theirs]) => theirs !== undefined);
    const agreed = read.filter(([theirs, ours]) => theirs === ours);
    return { reader, spellings: WRITTEN.length, read: read.length, agreed: agreed.length };
  });
}

function chordSymbolReader() {
  const factory = library.default?.chordParserFactory ?? library.chordParserFactory;
  if (factory === undefined) throw new Error('chord-symbol has no parser under the name we know');
  return factory();
}

function heardByUs(text: string): readonly number[] | undefined {
  const read = parseChordSymbol(text);
  if (!read.ok) return undefined;
  const { root, bass, ...parts } = read.value;
  const notes = chordTones({ root, ...parts }).map((tone) => tone.note);
  return aboveRoot(root, [...notes, ...(bass === undefined ? [] : [bass])].map(pitchClass));
}

/** Nothing where the reader does not know the spelling. */
function heardBy(reader: ReaderName, text: string): readonly number[] | undefined {
  const root = rootOf(text);
  if (reader === 'tonal') {
    const { empty, notes } = Chord.get(text);
    return empty ? undefined : aboveRoot(root, notes.map(chromaOf));
  }
  const read = readWithChordSymbol(text);
  if ('error' in read) return undefined;
  const { bassNote } = read.input;
  const tones = read.normalized.semitones.map((semitones) => semitones + pitchClass(root));
  return aboveRoot(root, bassNote === undefined || bassNote === '' ? tones : [...tones, chromaOf(bassNote)]);
}

/** Pitch class of a note as a reader writes it, with signs or letters. */
function chromaOf(name: string): number {
  const plain = name.replaceAll('♯', '#').replaceAll('♭', 'b').replaceAll('𝄪', '##').replaceAll('𝄫', 'bb');
  const chroma = TonalNote.chroma(plain);
  if (!Number.isInteger(chroma)) throw new Error(`no pitch class of ${name}`);
  return chroma;
}

function rootOf(text: string): Note {
  const start = text.trimStart();
  const letter = LETTERS.find((candidate) => start.startsWith(candidate));
  if (letter === undefined) throw new Error(`no root in ${text}`);
  return { letter, accidental: accidentalAt(start.replace(/^(.)\s(?=[b#♭♯](?:$|\s))/, '$1'), 1).accidental };
}

function aboveRoot(root: Note, pitchClasses: readonly number[]): readonly number[] {
  return [...new Set(pitchClasses.map((sound) => (sound - pitchClass(root) + 24) % 12))].sort((a, b) => a - b);
}
