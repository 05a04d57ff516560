import type { Instrument } from '../neck/instrument.ts';
import { soundingMidi } from '../neck/pitches.ts';
import type { Shape } from '../neck/shape.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import { printChordSymbol } from '../theory/chord-symbol.ts';
import type { Key } from '../theory/key.ts';
import type { Note } from '../theory/note.ts';
import type { Role } from '../theory/role.ts';
import { noteOfRole } from '../theory/role.ts';
import { costInContext, rootInContext } from './context.ts';
import type { Reading, Template } from './readings.ts';
import { readingsOf } from './readings.ts';

/** What stands around the chord, as far as it is known: it decides between names of the same notes, and how they are spelled. */
export interface NamingContext {
  readonly key?: Key;
  readonly previous?: ChordSymbol;
  readonly next?: ChordSymbol;
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
  /** Canonical: `F(add9)`. Never with a stroke; the bass is told apart. */
  readonly text: string;
  /** What the name promises and no string sounds. */
  readonly omits: readonly Role[];
  readonly rootless: boolean;
  /** The lowest sounding note, which is not always that of the first string. */
  readonly bass: Note;
  /** 0 with the root lowest, 1 with the third, 2 with the fifth, and so on up the chord. */
  readonly inversion: number;
  /** One for every sounding string, in chart order. */
  readonly tones: readonly SoundingTone[];
}

/** A template on one spelled root. */
interface SpelledChord {
  readonly symbol: ChordSymbol;
  readonly notes: readonly (Note | undefined)[];
}

/** Templates on their roots as already spelled out: at most the vocabulary times the 35 spellings of a root; forgotten with it. */
const spelledChords = new WeakMap<Template, Map<string, SpelledChord>>();

/** The names of what the shape sounds on the instrument, best first; none when fewer than two different notes sound. */
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
  const bass = lowest % 12;
  return inOrder(readingsOf(mask, bass), context).map((reading) => nameOf(reading, midiNotes, bass, context));
}

/** The best readings for the place where the chord stands. */
function inOrder(readings: readonly Reading[], context: NamingContext): readonly Reading[] {
  if (context.key === undefined && context.previous === undefined && context.next === undefined) return readings;
  return readings
    .map((reading) => ({ reading, cost: reading.cost + costInContext(reading, context) }))
    .sort((a, b) => a.cost - b.cost)
    .map((placed) => placed.reading);
}

function nameOf(
  reading: Reading,
  midiNotes: readonly (number | undefined)[],
  bass: number,
  context: NamingContext,
): ChordName {
  const { template, rootPitchClass, omits, rootless } = reading;
  const { symbol, notes } = spelled(template, rootInContext(reading, context));
  const tones: SoundingTone[] = [];
  for (let stringIndex = 0; stringIndex < midiNotes.length; stringIndex += 1) {
    const midi = midiNotes[stringIndex];
    if (midi === undefined) continue;
    const above = (midi - rootPitchClass + 120) % 12;
    const role = template.roleAt[above];
    const note = notes[above];
    if (role !== undefined && note !== undefined) tones.push({ note, role, midi, stringIndex });
  }
  const bassAbove = (bass - rootPitchClass + 12) % 12;
  const bassRole = template.roleAt[bassAbove];
  const inversion = bassRole === undefined ? 0 : template.roles.indexOf(bassRole);
  return { symbol, text: symbol.text, omits, rootless, bass: notes[bassAbove] ?? symbol.root, inversion, tones };
}

function spelled(template: Template, root: Note): SpelledChord {
  const onRoots = spelledChords.get(template) ?? new Map<string, SpelledChord>();
  spelledChords.set(template, onRoots);
  const place = root.letter + root.accidental;
  const known = onRoots.get(place);
  if (known !== undefined) return known;
  const bare = { ...template.parts, root };
  const symbol = { ...bare, text: printChordSymbol(bare) };
  const notes = template.roleAt.map((role) => (role === undefined ? undefined : noteOfRole(root, role)));
  const made = { symbol, notes };
  onRoots.set(place, made);
  return made;
}
