import { fretDistanceMm } from '../neck/fret-positions.ts';
import type { Instrument } from '../neck/instrument.ts';
import type { Shape } from '../neck/shape.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import { printChordSymbol } from '../theory/chord-symbol.ts';
import type { Note } from '../theory/note.ts';
import type { Role } from '../theory/role.ts';
import type { RankedCode } from './shape-code.ts';
import { decodeShape } from './shape-code.ts';
import { createMeasured, type Measured, rankedByHand } from './shape-rank.ts';
import { searchShapes } from './shape-search.ts';
import type { ChordTones } from './shape-tones.ts';
import { addedIn, chordTonesFor, noteAbove, omittedFrom } from './shape-tones.ts';
import type { TuningIndex } from './shape-tuning.ts';
import { tuningIndex } from './shape-tuning.ts';
import type { ShapeWishes } from './shape-wishes.ts';
import { printWishes, USUAL_MAX } from './shape-wishes.ts';

export type { ShapeWishes };

/** A shape as a way to sound a chord. */
export interface Voicing {
  readonly shape: Shape;
  /** Tones of the chord that no string sounds. */
  readonly omits: readonly Role[];
  /** Tones beyond the chord that sound, because they were wished. */
  readonly adds: readonly Role[];
  /** The lowest sounding note. */
  readonly bass: Note;
  /** Frets between the lowest and the highest that are stopped; 0 when at most one fret is. */
  readonly spanFrets: number;
  /** The same along the neck. Unit: mm. */
  readonly reachMm: number;
}

/** Shapes in the answers that are kept for one instrument; the oldest answer goes first. An answer of more is not kept. */
const KEPT_SHAPES = 8000;

/** So many of the walk are ordered once more by the hand: enough for the usual shapes of the charts, few enough to type by. */
const CANDIDATES = 48;

interface Kept {
  readonly index: TuningIndex;
  readonly measured: Measured;
  readonly answers: Map<string, readonly Voicing[]>;
  /** In all answers together; an answer of none counts as one. */
  shapes: number;
}

const keptAnswers = new WeakMap<Instrument, Kept>();

/**
 * Every shape that sounds the chord on the instrument within the limits of `shape-limits.ts`, best first: complete, easy to hold,
 * with every string sounding, low on the neck or near the shape before, root (or the written bass) lowest. On four strings what
 * leaves a string silent comes behind what does not. Where strings are tuned in order, what has a written bass not lowest comes
 * behind what has. The first few dozen stand by how the usual hand holds them (see `shape-rank.ts`), the rest by an estimate.
 * None when the instrument cannot sound the chord.
 */
export function shapesFor(symbol: ChordSymbol, instrument: Instrument, wishes: ShapeWishes = {}): readonly Voicing[] {
  const kept = keptFor(instrument);
  const { index } = kept;
  const question = `${printChordSymbol(symbol)} ${printWishes(wishes)}`;
  const known = kept.answers.get(question);
  if (known !== undefined) return known;
  const tones = chordTonesFor(symbol, index, wishes);
  const most = wishes.max ?? USUAL_MAX;
  const codes = searchShapes(index, tones, { ...wishes, max: most <= 0 ? 0 : Math.max(most, CANDIDATES) });
  const best = rankedByHand(instrument, index, kept.measured, tones, codes.subarray(0, CANDIDATES), most);
  const further = Array.from(codes.subarray(CANDIDATES, Math.min(most, codes.length)));
  const found = [...best, ...further].map((code) => voicingOf(instrument, index, tones, code));
  keep(kept, question, found);
  return found;
}

/** The shape that is taken for a chord when the lesson gives none. */
export function defaultShape(symbol: ChordSymbol, instrument: Instrument): Voicing | undefined {
  return shapesFor(symbol, instrument, { max: 1 })[0];
}

function keptFor(instrument: Instrument): Kept {
  const known = keptAnswers.get(instrument);
  if (known !== undefined) return known;
  const fresh: Kept = { index: tuningIndex(instrument), measured: createMeasured(), answers: new Map(), shapes: 0 };
  keptAnswers.set(instrument, fresh);
  return fresh;
}

function keep(kept: Kept, question: string, found: readonly Voicing[]): void {
  const { answers } = kept;
  if (found.length > KEPT_SHAPES) return;
  answers.set(question, found);
  kept.shapes += Math.max(1, found.length);
  for (const [oldest, shapes] of answers) {
    if (kept.shapes <= KEPT_SHAPES) break;
    answers.delete(oldest);
    kept.shapes -= Math.max(1, shapes.length);
  }
}

function voicingOf(instrument: Instrument, { openMidi }: TuningIndex, tones: ChordTones, code: RankedCode): Voicing {
  const shape = decodeShape(code, openMidi.length);
  let heard = 0;
  let lowest = Number.POSITIVE_INFINITY;
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  for (const [at, fret] of shape.entries()) {
    if (fret === 'muted') continue;
    const midi = (openMidi[at] ?? 0) + fret;
    heard |= 1 << ((midi - tones.root + 120) % 12);
    lowest = Math.min(lowest, midi);
    if (fret === 0) continue;
    low = Math.min(low, fret);
    high = Math.max(high, fret);
  }
  const spanFrets = high === 0 ? 0 : high - low;
  const { capoFret, scaleLengthMm } = instrument;
  return {
    shape,
    omits: omittedFrom(tones, heard),
    adds: addedIn(tones, heard),
    bass: noteAbove(tones, (lowest - tones.root + 120) % 12),
    spanFrets,
    reachMm: spanFrets === 0 ? 0 : fretDistanceMm(scaleLengthMm, capoFret + low, capoFret + high),
  };
}
