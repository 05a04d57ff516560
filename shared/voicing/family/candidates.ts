import { type PlacedHand, placedHand } from '../../hand/change-between.ts';
import { difficultyOfShape } from '../../hand/difficulty.ts';
import type { Fingering } from '../../hand/fingering.ts';
import { fingeringsOf } from '../../hand/fingering-search.ts';
import { type HandSize, printHand } from '../../hand/hand.ts';
import type { Instrument } from '../../neck/instrument.ts';
import { soundingMidi } from '../../neck/pitches.ts';
import { printShape, type Shape } from '../../neck/shape.ts';
import { Remembered } from '../../text/remembered.ts';
import { printChordSymbol } from '../../theory/chord-symbol.ts';
import type { InSteps } from '../in-steps.ts';
import { decodeShape } from '../shape-code.ts';
import { shapesInSteps } from '../shape-search.ts';
import { chordTonesFor } from '../shape-tones.ts';
import { type TuningIndex, tuningIndex } from '../shape-tuning.ts';
import { BODY_FRET, FAMILY_POINTS, HARD_FROM, MOST_SHAPES_ON_MORE, OPEN_FRET } from './family-table.ts';
import { outlineOf, placeOf } from './outline.ts';
import { type SoundFit, soundFit, soundOfPinned, type WantedChord } from './sounding.ts';

/** What every shape of the family must keep to. */
export interface FamilyLimits {
  readonly ring: readonly number[];
  readonly within: readonly [low: number, high: number] | undefined;
  readonly hand: HandSize;
  readonly hardest: number | undefined;
}

/** A shape that a chord of the family may be held in. */
export interface Candidate {
  readonly shape: Shape;
  readonly fit: SoundFit;
  /** The best way to hold it by itself. */
  readonly usual: Fingering;
  readonly hand: PlacedHand;
  readonly place: number | undefined;
  /** The outline as text: equal for shapes that look alike. */
  readonly outline: string;
  /** Pitch classes that sound, bit n for n. */
  readonly sounds: number;
  /** The highest sounding note, as a MIDI number. */
  readonly top: number;
  /** What it costs by itself, whatever stands beside it. Unit: points. */
  readonly harmony: number;
  readonly hold: number;
}

/** What a hand makes of a shape; nothing where it cannot be held. */
interface Held {
  readonly usual: Fingering;
  readonly difficulty: number;
}

/** What was found for one instrument, so that the next question about it is answered sooner. */
interface Kept {
  readonly index: TuningIndex;
  readonly held: Remembered<string, Held | undefined>;
  readonly lists: Map<string, readonly Candidate[]>;
}

const keptByInstrument = new WeakMap<Instrument, Kept>();

/** Shapes whose fingers are kept for one instrument; one more, and all are forgotten. */
const MOST_HELD = 20_000;

/** Lists of shapes that are kept for one instrument; one more, and all are forgotten. A long progression asks for 32. */
const MOST_LISTS = 100;

/**
 * Every shape of the chord that keeps to the limits and that this hand can hold; those that cost least by themselves first. Cut into
 * steps.
 */
export function* candidatesInSteps(
  instrument: Instrument,
  wanted: WantedChord,
  limits: FamilyLimits,
): InSteps<readonly Candidate[]> {
  const { lists } = keptFor(instrument);
  const question = questionOf(wanted, limits);
  const known = lists.get(question);
  if (known !== undefined) return known;
  const found = yield* foundFor(instrument, wanted, limits);
  if (lists.size >= MOST_LISTS) lists.clear();
  lists.set(question, found);
  return found;
}

/** So many shapes are judged in one step of the work. Unit: shapes. Measured: a shape takes a tenth of a millisecond, at first five times that. */
const SHAPES_OF_STEP = 4;

function questionOf({ symbol, adds, suspensions, home, allow, others }: WantedChord, limits: FamilyLimits): string {
  const { ring, within, hand, hardest } = limits;
  const chord = [printChordSymbol(symbol), adds, suspensions, home, allow.any, allow.omits.join('.')];
  const beside = [...new Set(others.map(({ root, tones }) => `${root}:${tones}`))].sort().join('.');
  return [...chord, beside, ring.join('.'), within?.join('-'), printHand(hand), hardest].join(' ');
}

function* foundFor(instrument: Instrument, wanted: WantedChord, limits: FamilyLimits): InSteps<readonly Candidate[]> {
  const { index } = keptFor(instrument);
  const strings = index.openMidi.length;
  const codes = yield* shapesInSteps(index, chordTonesFor(wanted.symbol, index, wishesOf(wanted)), {
    ...wishesOf(wanted),
    ringOpen: limits.ring,
    ...(limits.within === undefined ? {} : { within: limits.within }),
    max: strings > 4 ? MOST_SHAPES_ON_MORE : Number.POSITIVE_INFINITY,
  });
  const found: Candidate[] = [];
  for (const [at, code] of codes.entries()) {
    if (at % SHAPES_OF_STEP === 0) yield;
    const shape = decodeShape(code, strings);
    const fit = soundFit(wanted, soundingMidi(instrument, shape));
    const candidate = fit && candidateOf(instrument, wanted, shape, fit, limits);
    if (candidate === undefined) continue;
    if (limits.hardest === undefined || difficultyOf(candidate) <= limits.hardest) found.push(candidate);
  }
  return found.sort((one, other) => one.harmony + one.hold - other.harmony - other.hold);
}

/** The shape that a chord is pinned to; nothing where this hand cannot hold it. Its sound is told as it is. */
export function pinnedCandidate(
  instrument: Instrument,
  wanted: WantedChord,
  shape: Shape,
  limits: FamilyLimits,
): Candidate | undefined {
  return candidateOf(instrument, wanted, shape, soundOfPinned(wanted, soundingMidi(instrument, shape)), limits);
}

function difficultyOf({ usual }: Candidate): number {
  return difficultyOfShape(usual).total;
}

/** All that could ever be allowed is looked for, and judged afterwards: the finder knows of no third that rests. */
function wishesOf({ roles, adds, suspensions, own }: WantedChord) {
  const extra = (adds | suspensions) & ~own;
  const mayAdd = PLAIN_ROLES.filter((_, above) => (extra & (1 << above)) !== 0);
  return { mayAdd, mayOmit: roles };
}

/** A role for each pitch class above the root; what it is called does not matter to the finder. */
const PLAIN_ROLES = [
  { degree: 1, alter: 0 },
  { degree: 9, alter: -1 },
  { degree: 9, alter: 0 },
  { degree: 9, alter: 1 },
  { degree: 3, alter: 0 },
  { degree: 11, alter: 0 },
  { degree: 11, alter: 1 },
  { degree: 5, alter: 0 },
  { degree: 13, alter: -1 },
  { degree: 13, alter: 0 },
  { degree: 7, alter: -1 },
  { degree: 7, alter: 0 },
] as const;

function candidateOf(
  instrument: Instrument,
  wanted: WantedChord,
  shape: Shape,
  fit: SoundFit,
  { hand, ring }: FamilyLimits,
): Candidate | undefined {
  const held = heldBy(instrument, shape, hand);
  if (held === undefined) return undefined;
  let lowest = Number.POSITIVE_INFINITY;
  let top = 0;
  let sounds = 0;
  for (const midi of soundingMidi(instrument, shape)) {
    if (midi === undefined) continue;
    lowest = Math.min(lowest, midi);
    top = Math.max(top, midi);
    sounds |= 1 << (midi % 12);
  }
  const place = placeOf(shape);
  const { difficulty, usual } = held;
  const { index } = keptFor(instrument);
  return {
    shape,
    fit,
    usual,
    hand: placedHand(usual.presses),
    place,
    outline: printShape(outlineOf(shape)),
    sounds,
    top,
    harmony: fit.cost + costOfBass(wanted, index, lowest, sounds) + costOfSilence(shape),
    hold:
      costOfHolding(difficulty) + (place === undefined ? FAMILY_POINTS.nothingHeld : costOfPlace(place, shape, ring)),
  };
}

function costOfBass(wanted: WantedChord, { inOrder, openMidi }: TuningIndex, lowest: number, sounds: number): number {
  const { root, own, bass, others } = wanted;
  const above = (lowest - root + 120) % 12;
  if (bass === undefined) {
    if (above === 0) return 0;
    if (openMidi.length <= 4) return FAMILY_POINTS.bassElsewhere;
    if (!inOrder) return FAMILY_POINTS.bassElsewhereOnMore;
    const heard = ((sounds >> root) | (sounds << (12 - root))) & 0xfff;
    if (others.some((other) => isHeardAs(other, wanted, above, heard))) return FAMILY_POINTS.bassOfNeighbour;
    return (own & (1 << above)) === 0 ? FAMILY_POINTS.bassForeign : FAMILY_POINTS.bassElsewhereOnMore;
  }
  if (above === bass) return 0;
  return inOrder ? FAMILY_POINTS.writtenBassElsewhereInOrder : FAMILY_POINTS.writtenBassElsewhere;
}

/**
 * Over its own root another chord is heard where all of it sounds; a sixth does for its fifth: Em over G is a G6 beside a G. Where no
 * root is lowest, the added tones may not make it whole: a G with E over B is an Em7.
 */
function isHeardAs(
  { root, tones }: WantedChord['others'][number],
  { own }: WantedChord,
  bass: number,
  heard: number,
): boolean {
  const missing = tones & ~heard;
  if (root !== bass) return missing === 0 && (tones & ~own) !== 0;
  return missing === 0 || (root === MINOR_THIRD && missing === 1 << (MINOR_THIRD + FIFTH));
}

/** Unit: semitones. */
const MINOR_THIRD = 3;
const FIFTH = 7;

function costOfHolding(difficulty: number): number {
  const { difficultyPoint, hardPoint } = FAMILY_POINTS;
  return Math.round(difficultyPoint * difficulty + hardPoint * Math.max(0, difficulty - HARD_FROM));
}

/** Strings that were asked to ring are meant to sound apart. */
function costOfPlace(place: number, shape: Shape, ring: readonly number[]): number {
  const { fretUpTheNeck, fretBeyondBody, fretAboveOpen } = FAMILY_POINTS;
  const open = shape.filter((fret, at) => fret === 0 && !ring.includes(shape.length - at)).length;
  return (
    fretUpTheNeck * (place - 1) +
    fretBeyondBody * Math.max(0, place - BODY_FRET) +
    fretAboveOpen * open * Math.max(0, place - OPEN_FRET)
  );
}

function costOfSilence(shape: Shape): number {
  const silent = shape.filter((fret) => fret === 'muted').length;
  return silent * (shape.length > 4 ? FAMILY_POINTS.silentStringOnMore : FAMILY_POINTS.silentString);
}

function heldBy(instrument: Instrument, shape: Shape, hand: HandSize): Held | undefined {
  const { held } = keptFor(instrument);
  const key = `${printHand(hand)} ${printShape(shape)}`;
  return held.get(key, () => hold(instrument, shape, hand));
}

/** A silent string between strings that sound must be touched by a finger; else it sounds. */
function hold(instrument: Instrument, shape: Shape, hand: HandSize): Held | undefined {
  const usual = fingeringsOf(instrument, shape, hand).find(
    ({ verdict, silent }) => verdict !== 'out-of-reach' && silent.every(({ inner, by }) => !inner || by !== undefined),
  );
  return usual && { usual, difficulty: difficultyOfShape(usual).total };
}

function keptFor(instrument: Instrument): Kept {
  const known = keptByInstrument.get(instrument);
  if (known !== undefined) return known;
  const fresh: Kept = { index: tuningIndex(instrument), held: new Remembered(MOST_HELD), lists: new Map() };
  keptByInstrument.set(instrument, fresh);
  return fresh;
}
