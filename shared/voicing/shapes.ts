import type { ReachLimit } from '../hand/hand.ts';
import { reachLimit, USUAL_HAND } from '../hand/hand.ts';
import { fretDistanceMm } from '../neck/fret-positions.ts';
import type { Instrument } from '../neck/instrument.ts';
import { lowestSounding, midiAt } from '../neck/pitches.ts';
import type { Fret, Shape } from '../neck/shape.ts';
import { rolesOfParts } from '../theory/chord-parts.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import { printChordSymbol } from '../theory/chord-symbol.ts';
import type { Note } from '../theory/note.ts';
import { pitchClass } from '../theory/note.ts';
import type { Role } from '../theory/role.ts';
import { noteOfRole, rolePitchClass } from '../theory/role.ts';
import { essentialOf, missingFrom } from './omission.ts';
import { fingersFor, holdingEffort } from './shape-effort.ts';

/** A shape as a way to sound a chord. */
export interface Voicing {
  readonly shape: Shape;
  /** Tones of the chord that no string sounds. */
  readonly omits: readonly Role[];
  /** The lowest sounding note. */
  readonly bass: Note;
  /** Frets between the lowest and the highest that are stopped; 0 when at most one fret is. */
  readonly spanFrets: number;
  /** The same along the neck. Unit: mm. */
  readonly reachMm: number;
}

export interface ShapeWishes {
  /** At most so many; 24 when nothing is said. */
  readonly max?: number;
  /** Lowest and highest fret that may be stopped; open strings are free. */
  readonly within?: readonly [low: number, high: number];
  /** The shape that the hand comes from: near ones first. */
  readonly near?: Shape;
}

/** Four neighbouring frets are what four fingers cover. Source: one finger a fret, common practice, no source. */
const WINDOW_FRETS = 4;

/** Fingers of the fretting hand; the thumb is not counted. */
const FINGERS = 4;

/** Shapes are looked for up to here, where the body begins on most necks. Source: common practice, no source. */
const HIGHEST_FRET = 15;

const USUAL_MAX = 24;

/** What a voicing loses by what it lacks, beside the effort of holding it. Unit: of effort. Common practice, no source. */
const COST = {
  rootLeftOut: 3,
  otherLeftOut: 1.2,
  tensionLeftOut: 0.4,
  bassNotRootOnFour: 0.25,
  bassNotRootOnMore: 2,
  writtenBassNotLowest: 2.5,
  fretFromNear: 0.15,
};

/** Chords asked of one instrument that are kept; the oldest goes first. */
const KEPT_CHORDS = 200;
const kept = new WeakMap<Instrument, Map<string, readonly RankedVoicing[]>>();

interface RankedVoicing {
  readonly voicing: Voicing;
  readonly cost: number;
}

/** The chord and the neck as the search needs them. */
interface Search {
  readonly instrument: Instrument;
  readonly symbol: ChordSymbol;
  readonly root: number;
  readonly roles: readonly Role[];
  /** Tones of the chord and the written bass, above the root: bit n for n semitones. */
  readonly allowedMask: number;
  /** Above the root, when a bass is written behind a stroke. */
  readonly writtenBass: number | undefined;
  readonly highestFret: number;
  /** For each string, the tone of each fret as a bit above the root. */
  readonly tones: readonly (readonly number[])[];
  readonly limit: ReachLimit;
  /** What each set of sounding tones lacks; nothing where it is not the chord any more. */
  readonly omitted: Map<number, readonly Role[] | undefined>;
  readonly found: RankedVoicing[];
}

/**
 * Every shape within four frets, open strings besides, that sounds the chord on the instrument; best first: complete, easy to hold,
 * low on the neck, root (or the written bass) lowest. On more than four strings the highest-numbered ones may stay silent.
 * None when the instrument cannot sound the chord.
 */
export function shapesFor(symbol: ChordSymbol, instrument: Instrument, wishes: ShapeWishes = {}): readonly Voicing[] {
  const { within, near, max = USUAL_MAX } = wishes;
  let ranked = allShapes(symbol, instrument);
  if (within !== undefined) ranked = ranked.filter(({ voicing }) => liesWithin(voicing.shape, within));
  if (near !== undefined) {
    ranked = ranked
      .map(({ voicing, cost }) => ({ voicing, cost: cost + COST.fretFromNear * fretsApart(voicing.shape, near) }))
      .sort((a, b) => a.cost - b.cost);
  }
  return ranked.slice(0, max).map(({ voicing }) => voicing);
}

/** The shape that is taken for a chord when the lesson gives none. */
export function defaultShape(symbol: ChordSymbol, instrument: Instrument): Voicing | undefined {
  return shapesFor(symbol, instrument, { max: 1 })[0];
}

function allShapes(symbol: ChordSymbol, instrument: Instrument): readonly RankedVoicing[] {
  const chords = kept.get(instrument) ?? new Map<string, readonly RankedVoicing[]>();
  kept.set(instrument, chords);
  const name = printChordSymbol(symbol);
  const known = chords.get(name);
  if (known !== undefined) return known;
  const oldest = chords.size >= KEPT_CHORDS ? chords.keys().next().value : undefined;
  if (oldest !== undefined) chords.delete(oldest);
  const found = searchShapes(symbol, instrument);
  chords.set(name, found);
  return found;
}

function searchShapes(symbol: ChordSymbol, instrument: Instrument): readonly RankedVoicing[] {
  const root = pitchClass(symbol.root);
  const roles = rolesOfParts(symbol);
  const writtenBass = symbol.bass === undefined ? undefined : (pitchClass(symbol.bass) - root + 12) % 12;
  let allowedMask = writtenBass === undefined ? 0 : 1 << writtenBass;
  for (const role of roles) allowedMask |= 1 << rolePitchClass(role);
  const highestFret = Math.min(instrument.frets - instrument.capoFret, HIGHEST_FRET);
  const limit = reachLimit(USUAL_HAND);
  const omitted = new Map<number, readonly Role[] | undefined>();
  const tones = tonesOf(instrument, root, highestFret);
  const found: RankedVoicing[] = [];
  const search = {
    instrument,
    symbol,
    root,
    roles,
    allowedMask,
    writtenBass,
    highestFret,
    tones,
    limit,
    omitted,
    found,
  };
  const strings = instrument.openStrings.length;
  const choices = choicesOf(search);
  for (let low = 0; low <= highestFret; low += 1) {
    const inWindow = choices.map((frets) =>
      frets.filter((fret) => fret === 0 || (fret >= low && fret < low + WINDOW_FRETS)),
    );
    // The window of fret 0 is the open strings alone; every other one must use its lowest fret, so that none is found twice.
    const offered = low === 0 ? inWindow.map((frets) => frets.filter((fret) => fret === 0)) : inWindow;
    for (let silent = 0; silent <= Math.max(0, strings - 4); silent += 1) {
      const shape: Fret[] = new Array<Fret>(silent).fill('muted');
      extend(search, offered, low, shape, 0, 0, low === 0);
    }
  }
  return [...found].sort((a, b) => a.cost - b.cost);
}

/** For each string the frets that sound a tone of the chord. */
function choicesOf(search: Search): readonly (readonly number[])[] {
  return search.tones.map((tones) =>
    [...tones.keys()].filter((fret) => (search.allowedMask & (tones[fret] ?? 0)) !== 0),
  );
}

function tonesOf(instrument: Instrument, root: number, highestFret: number): readonly (readonly number[])[] {
  return instrument.openStrings.map((_, stringIndex) => {
    const open = midiAt(instrument, stringIndex, 0) ?? 0;
    return Array.from({ length: highestFret + 1 }, (_unused, fret) => 1 << ((open + fret - root + 120) % 12));
  });
}

/**
 * Gives the next string each of its frets in turn. `shape` is filled and emptied again; `above` counts the fingers beyond the lowest
 * fret, of which there is one less than the hand has; `anchored` tells that the lowest fret is used.
 */
function extend(
  search: Search,
  offered: readonly (readonly number[])[],
  low: number,
  shape: Fret[],
  heard: number,
  above: number,
  anchored: boolean,
): void {
  const stringIndex = shape.length;
  const frets = offered[stringIndex];
  if (frets === undefined) {
    if (anchored) keep(search, shape, heard);
    return;
  }
  for (const fret of frets) {
    const fingersAbove = fret > low ? above + 1 : above;
    if (fingersAbove >= FINGERS) continue;
    shape.push(fret);
    const tone = search.tones[stringIndex]?.[fret] ?? 0;
    extend(search, offered, low, shape, heard | tone, fingersAbove, anchored || fret === low);
    shape.pop();
  }
}

function keep(search: Search, shape: readonly Fret[], heard: number): void {
  const omits = omittedBy(search, heard);
  if (omits === undefined || fingersFor(shape).fingers > FINGERS) return;
  const voicing = voicingOf(search, [...shape], omits);
  if (voicing !== undefined) search.found.push({ voicing, cost: costOf(search, voicing) });
}

function omittedBy(search: Search, heard: number): readonly Role[] | undefined {
  if (search.omitted.has(heard)) return search.omitted.get(heard);
  const missing = missingFrom(heard, search.roles);
  const bassHeard = search.writtenBass === undefined || (heard & (1 << search.writtenBass)) !== 0;
  const whole = essentialOf(missing, search.roles, search.symbol.kind).length === 0 && bassHeard;
  const omits = whole ? missing : undefined;
  search.omitted.set(heard, omits);
  return omits;
}

function voicingOf(search: Search, shape: Shape, omits: readonly Role[]): Voicing | undefined {
  const { instrument } = search;
  const lowest = lowestSounding(instrument, shape);
  if (lowest === undefined) return undefined;
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  for (const fret of shape) {
    if (fret === 'muted' || fret === 0) continue;
    low = Math.min(low, fret);
    high = Math.max(high, fret);
  }
  const spanFrets = high === 0 ? 0 : high - low;
  const { capoFret, scaleLengthMm } = instrument;
  const reachMm = spanFrets === 0 ? 0 : fretDistanceMm(scaleLengthMm, capoFret + low, capoFret + high);
  return { shape, omits, bass: noteAbove(search, (lowest.midi - search.root + 120) % 12), spanFrets, reachMm };
}

function costOf(search: Search, voicing: Voicing): number {
  let cost = holdingEffort(voicing.shape, voicing.reachMm, search.limit);
  for (const role of voicing.omits) {
    cost += role.degree === 1 ? COST.rootLeftOut : role.degree > 7 ? COST.tensionLeftOut : COST.otherLeftOut;
  }
  const bass = (pitchClass(voicing.bass) - search.root + 12) % 12;
  if (search.writtenBass !== undefined) return bass === search.writtenBass ? cost : cost + COST.writtenBassNotLowest;
  if (bass === 0) return cost;
  return cost + (voicing.shape.length > 4 ? COST.bassNotRootOnMore : COST.bassNotRootOnFour);
}

function noteAbove(search: Search, above: number): Note {
  const { bass } = search.symbol;
  if (bass !== undefined && above === search.writtenBass) return bass;
  const role = search.roles.find((candidate) => rolePitchClass(candidate) === above);
  return role === undefined ? search.symbol.root : noteOfRole(search.symbol.root, role);
}

function liesWithin(shape: Shape, [low, high]: readonly [number, number]): boolean {
  return shape.every((fret) => fret === 'muted' || fret === 0 || (fret >= low && fret <= high));
}

/** Frets that the strings move, added up; a string that is open or silent on one side moves nothing. */
function fretsApart(shape: Shape, near: Shape): number {
  return shape.reduce<number>((sum, fret, index) => {
    const other = near[index];
    if (fret === 'muted' || other === undefined || other === 'muted' || fret === 0 || other === 0) return sum;
    return sum + Math.abs(fret - other);
  }, 0);
}
