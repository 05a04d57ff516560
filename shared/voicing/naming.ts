import type { Instrument } from '../neck/instrument.ts';
import { soundingMidi } from '../neck/pitches.ts';
import type { Shape } from '../neck/shape.ts';
import { CHORD_STYLES, type ChordStyleName } from '../theory/chord-style.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import { printChordSymbol, type Tone } from '../theory/chord-symbol.ts';
import type { Key } from '../theory/key.ts';
import { spellPitchClass } from '../theory/key.ts';
import type { Note } from '../theory/note.ts';
import { pitchClass } from '../theory/note.ts';
import type { Role } from '../theory/role.ts';
import { noteOfRole } from '../theory/role.ts';
import { costInContext, rootInContext, signsOfReading } from './context.ts';
import { missingFrom } from './omission.ts';
import type { Heard, Reading, Template } from './readings.ts';
import { DEEP_BASS_BELOW_MIDI, maskAbove, placeOfHeard, readingsOf } from './readings.ts';

/** What stands around the chord, as far as it is known: it decides between names of the same notes, and how they are spelled. */
export interface NamingContext {
  readonly key?: Key;
  readonly previous?: ChordSymbol;
  readonly next?: ChordSymbol;
  /** The note that another player sounds below: with a bass on C, G B♭ D E is a C9 whose root is elsewhere. */
  readonly bassElsewhere?: Note;
  /** How the names are written; the plain style where nothing is said. */
  readonly chordStyle?: ChordStyleName;
}

/** One sounding string under a name. */
export interface SoundingTone {
  readonly note: Note;
  readonly role: Role;
  readonly midi: number;
  /** In chart order; for bare notes their place in the list. */
  readonly stringIndex: number;
}

/** One name for what sounds. */
export interface ChordName {
  readonly symbol: ChordSymbol;
  /** In the style asked for, plainly `F(add9)`. With a stroke only where the bass is none of the chord's tones, as in `Am/G`; else the bass is told apart. */
  readonly text: string;
  /** What the name promises and no string sounds. */
  readonly omits: readonly Role[];
  readonly rootless: boolean;
  /** The lowest sounding note, which is not always that of the first string. */
  readonly bass: Note;
  /** 0 with the root lowest, 1 with the third, 2 with the fifth, and so on up the chord; 0 over a foreign bass too. */
  readonly inversion: number;
  /** True where a musician might say it; the others are true too, but far-fetched. */
  readonly ready: boolean;
  /** Role and note of each pitch class that sounds, by pitch class; nothing for the others. */
  readonly toneAt: readonly (Tone | undefined)[];
}

/** A name may cost this much more than the best one and still come readily to a musician. Unit: of difficulty. Common practice, no source. */
const READY_WITHIN = 4.6;

/** A template on one spelled root. */
interface SpelledChord {
  readonly symbol: ChordSymbol;
  readonly toneAt: readonly (Tone | undefined)[];
}

/** Templates on their roots as already spelled out: at most the vocabulary times the 35 spellings of a root; forgotten with it. */
const spelledChords = new WeakMap<Template, Map<string, SpelledChord>>();

/** Names by what is heard; at most 2 · 12 · 4,096 lists, each made when first asked for. */
type KeptNames = (readonly ChordName[] | undefined)[];

/** Names without neighbours: outside any key, and in each key as long as a lesson holds on to it. */
const plainNames: KeptNames = [];
const namesInKey = new WeakMap<Key, KeptNames>();

/**
 * The names of what the shape sounds on the instrument, best first. Three different notes or more always have one; two have one as
 * root and fifth or root and third, and are else an interval; one note is a note.
 */
export function nameShape(instrument: Instrument, shape: Shape, context: NamingContext = {}): readonly ChordName[] {
  return nameSounding(soundingMidi(instrument, shape), context);
}

/** The same for bare MIDI note numbers; nothing in the list stands for a muted string, so that places are kept. */
export function nameSounding(
  midiNotes: readonly (number | undefined)[],
  context: NamingContext = {},
): readonly ChordName[] {
  let mask = 0;
  let lowest = Number.POSITIVE_INFINITY;
  for (const midi of midiNotes) {
    if (midi === undefined) continue;
    mask |= 1 << (midi % 12);
    if (midi < lowest) lowest = midi;
  }
  if (mask === 0) return [];
  const heard = { mask, bass: lowest % 12, deep: lowest < DEEP_BASS_BELOW_MIDI };
  return written(namesOf(heard, context), context.chordStyle);
}

function namesOf(heard: Heard, context: NamingContext): readonly ChordName[] {
  const kept = keptFor(context);
  const place = placeOfHeard(heard);
  const known = kept?.[place];
  if (known !== undefined) return known;
  const readings = inOrder(readingsOver(heard, context), context);
  const best = readings[0]?.cost ?? 0;
  const made = readings.map((reading) => nameOf(reading, heard, best, context));
  if (kept !== undefined) kept[place] = made;
  return made;
}

function written(names: readonly ChordName[], style: ChordStyleName | undefined): readonly ChordName[] {
  if (style === undefined || style === 'plain') return names;
  return names.map((name) => {
    const text = printChordSymbol(name.symbol, CHORD_STYLES[style]);
    return { ...name, text, symbol: { ...name.symbol, text } };
  });
}

/** Every sounding string under the name, in chart order. The name is one of those that were given for the same notes. */
export function tonesUnder(name: ChordName, midiNotes: readonly (number | undefined)[]): readonly SoundingTone[] {
  return midiNotes.flatMap((midi, stringIndex) => {
    const tone = midi === undefined ? undefined : name.toneAt[midi % 12];
    return midi === undefined || tone === undefined ? [] : [{ ...tone, midi, stringIndex }];
  });
}

/** Where names of this context are kept; nowhere when neighbours decide, who are seldom the same twice. */
function keptFor({ key, previous, next, bassElsewhere }: NamingContext): KeptNames | undefined {
  if (previous !== undefined || next !== undefined || bassElsewhere !== undefined) return undefined;
  if (key === undefined) return plainNames;
  const kept = namesInKey.get(key) ?? [];
  namesInKey.set(key, kept);
  return kept;
}

/** A bass that somebody else plays is heard with the rest, and is lowest. */
function readingsOver(heard: Heard, { bassElsewhere }: NamingContext): readonly Reading[] {
  if (bassElsewhere === undefined) return readingsOf(heard);
  const bass = pitchClass(bassElsewhere);
  return readingsOf({ mask: heard.mask | (1 << bass), bass, deep: true });
}

/** The best readings for the place where the chord stands. */
function inOrder(readings: readonly Reading[], context: NamingContext): readonly Reading[] {
  return readings
    .map((reading) => ({ ...reading, cost: reading.cost + costInContext(reading, context) }))
    .sort((a, b) => a.cost - b.cost || signsOfReading(a) - signsOfReading(b));
}

/** What another player sounds is part of how the chord is heard, but not of what the shape has. */
function nameOf(reading: Reading, { mask, bass }: Heard, best: number, context: NamingContext): ChordName {
  const { template, rootPitchClass } = reading;
  const { symbol, toneAt } = spelled(template, rootPitchClass, rootInContext(reading, context));
  const omits =
    context.bassElsewhere === undefined ? reading.omits : missingFrom(maskAbove(mask, rootPitchClass), template.roles);
  const tone = toneAt[bass];
  const inversion = tone === undefined ? -1 : template.roles.indexOf(tone.role);
  return {
    symbol,
    text: symbol.text,
    omits,
    rootless: omits.some((role) => role.degree === 1),
    bass: tone?.note ?? spellPitchClass(bass, context.key),
    inversion: Math.max(0, inversion),
    ready: reading.cost <= best + READY_WITHIN,
    toneAt,
  };
}

function spelled(template: Template, rootPitchClass: number, root: Note): SpelledChord {
  const onRoots = spelledChords.get(template) ?? new Map<string, SpelledChord>();
  spelledChords.set(template, onRoots);
  const place = root.letter + root.accidental;
  const known = onRoots.get(place);
  if (known !== undefined) return known;
  const toneAt: (Tone | undefined)[] = new Array(12).fill(undefined);
  for (const [semitones, role] of template.roleAt.entries()) {
    if (role !== undefined) toneAt[(rootPitchClass + semitones) % 12] = { role, note: noteOfRole(root, role) };
  }
  const { bassAbove } = template;
  const bass = bassAbove === undefined ? undefined : toneAt[(rootPitchClass + bassAbove) % 12]?.note;
  const bare = { ...template.parts, root, ...(bass === undefined ? {} : { bass }) };
  const made = { symbol: { ...bare, text: printChordSymbol(bare) }, toneAt };
  onRoots.set(place, made);
  return made;
}
