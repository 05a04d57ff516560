import { difficultyOfShape } from '../hand/difficulty.ts';
import { MOST_DIFFICULT } from '../hand/difficulty-table.ts';
import { fingeringsOf } from '../hand/fingering-search.ts';
import { USUAL_HAND } from '../hand/hand.ts';
import type { Instrument } from '../neck/instrument.ts';
import type { Shape } from '../neck/shape.ts';
import { Remembered } from '../text/remembered.ts';
import type { RankedCode } from './shape-code.ts';
import { costOfCode, decodeShape, shapeOfCode } from './shape-code.ts';
import { holdingEffort } from './shape-effort.ts';
import type { ChordTones } from './shape-tones.ts';
import type { TuningIndex } from './shape-tuning.ts';

/**
 * How the best shapes of the walk are told apart. Unit: points, as of effort, unless said otherwise. Common practice, no source; the
 * order that comes of it is held by the charts of usual shapes in the tests.
 */
const RANK = {
  /** Beyond so many points of difficulty (0 to 10) a shape is harder than the full barres that players take for granted. */
  hardFrom: 6.5,
  /** Each point of difficulty beyond that. */
  hardPoint: 140,
  /** No hand of the usual size holds it. */
  outOfReach: 5000,
  /** The rest is for more than four strings. What the span model says of the hand counts for so much; the fingering says it better. Unit: none. */
  shareOfEffort: 0.5,
  /** Each point of difficulty. */
  point: 5,
  /** An open string beside a stopped one, for each fret that this is above the second: it rings apart, and the finger must arch over it. */
  openBesideHigh: 35,
  /** The two lowest notes lie too close and too low to be told apart: see `CLEAR_FROM_MIDI`. */
  muddyBass: 30,
  /** Each string short of `FULL_SOUND`. */
  thin: 150,
  /** In a chord of four tones or more: silence at the top costs so much less, and beside the lowest string, where its finger damps. */
  silentTop: 50,
  dampedByBass: 140,
} as const;

/** Strings that sound full on an instrument of more than four. Source: common practice, no source. */
const FULL_SOUND = 4;

/**
 * The lowest note from which so many semitones above it are heard apart: a minor second from E3, a major one from E flat, a minor
 * third from C, a major one from B flat below. Unit: MIDI number. Common practice among arrangers, from memory, no source.
 */
const CLEAR_FROM_MIDI: readonly number[] = [0, 52, 51, 48, 46];

/** What the hand says of a shape. */
interface Held {
  /** 0 to 10; nothing where no usual hand holds it. */
  readonly difficulty: number | undefined;
  /** A finger on the lowest string that sounds keeps the next one silent. */
  readonly damped: boolean;
}

/** What the hand said of each shape, by its digits. Other questions about the instrument ask for the same shapes again. */
export type Measured = Remembered<number, Held>;

export function createMeasured(): Measured {
  return new Remembered(8000);
}

interface Candidate {
  readonly code: RankedCode;
  readonly shape: Shape;
  cost: number;
}

/**
 * The first `most` of the candidates that the walk gives, as the hand holds them: what they sound, as before, with the difficulty of
 * their usual fingering.
 *
 * To find fingerings takes a hundred times as long as to estimate effort, so the walk goes by the estimate and only its best are
 * measured: a shape that the estimate puts behind all of these stays there, however easy. What is silent, sounds twice or moves from
 * the shape before was settled in the walk's cost and is not asked again.
 */
export function rankedByHand(
  instrument: Instrument,
  index: TuningIndex,
  measured: Measured,
  tones: ChordTones,
  codes: Float64Array,
  most: number,
): readonly RankedCode[] {
  const candidates = Array.from(codes, (code): Candidate => {
    const shape = decodeShape(code, index.openMidi.length);
    return { code, shape, cost: costOfCode(code) + costWithoutFingers(index, tones, shape) };
  }).sort(byCost);
  const ranked: Candidate[] = [];
  for (const candidate of candidates) {
    // Of what is still to come each costs at least this much.
    const limit = ranked[most - 1];
    if (limit !== undefined && candidate.cost - mostDamped(tones) > limit.cost) break;
    candidate.cost += costOfFingers(heldBy(instrument, measured, candidate), tones);
    let at = ranked.length;
    for (; at > 0; at -= 1) {
      const before = ranked[at - 1];
      if (before === undefined || byCost(before, candidate) < 0) break;
    }
    ranked.splice(at, 0, candidate);
  }
  return ranked.slice(0, most).map(({ code }) => code);
}

function byCost(one: Candidate, other: Candidate): number {
  return one.cost - other.cost || one.code - other.code;
}

function costWithoutFingers({ neck, openMidi }: TuningIndex, tones: ChordTones, shape: Shape): number {
  if (shape.length <= 4) return 0;
  const effort = (RANK.shareOfEffort - 1) * holdingEffort(neck, shape);
  const cutOff = isTall(tones) && shape.at(-1) === 'muted' ? RANK.silentTop : 0;
  return effort - cutOff + costOfOpenBeside(shape) + costOfLowNotes(openMidi, tones, shape);
}

function costOfFingers({ difficulty, damped }: Held, tones: ChordTones): number {
  if (difficulty === undefined) return RANK.outOfReach;
  const hard = RANK.hardPoint * Math.max(0, difficulty - RANK.hardFrom);
  if (tones.stringCount <= 4) return hard;
  return hard + RANK.point * difficulty - (damped ? mostDamped(tones) : 0);
}

function mostDamped(tones: ChordTones): number {
  return isTall(tones) && tones.stringCount > 4 ? RANK.dampedByBass : 0;
}

/** Chords of four tones or more are told by their tones; those of three live by a full sound. */
function isTall({ roles }: ChordTones): boolean {
  return roles.length >= 4;
}

function heldBy(instrument: Instrument, measured: Measured, { code, shape }: Candidate): Held {
  return measured.get(shapeOfCode(code), () => measure(instrument, shape));
}

// Straight from the search: among the fingerings that are kept for lessons, thousands of candidates would push out those in use.
function measure(instrument: Instrument, shape: Shape): Held {
  const [usual] = fingeringsOf(instrument, shape, USUAL_HAND);
  if (usual === undefined || usual.verdict === 'out-of-reach') return { difficulty: undefined, damped: false };
  const lowest = shape.findIndex((fret) => fret !== 'muted');
  const damped = usual.silent.some(
    ({ stringIndex, inner, by }) => inner && by !== undefined && stringIndex === lowest + 1,
  );
  return { difficulty: Math.min(MOST_DIFFICULT, difficultyOfShape(usual).total), damped };
}

function costOfOpenBeside(shape: Shape): number {
  let frets = 0;
  for (const [at, fret] of shape.entries()) {
    if (fret === 0) frets += fretsAboveSecond(shape[at - 1]) + fretsAboveSecond(shape[at + 1]);
  }
  return RANK.openBesideHigh * frets;
}

function fretsAboveSecond(fret: number | 'muted' | undefined): number {
  return typeof fret === 'number' && fret > 2 ? fret - 2 : 0;
}

function costOfLowNotes(openMidi: readonly number[], { roles }: ChordTones, shape: Shape): number {
  let lowest = Number.POSITIVE_INFINITY;
  let next = Number.POSITIVE_INFINITY;
  let sounding = 0;
  for (const [at, fret] of shape.entries()) {
    if (fret === 'muted') continue;
    const midi = (openMidi[at] ?? 0) + fret;
    sounding += 1;
    next = Math.min(next, Math.max(lowest, midi));
    lowest = Math.min(lowest, midi);
  }
  // Root, fifth and root are all that a chord of two tones wants.
  const thin = roles.length <= 2 ? 0 : Math.max(0, FULL_SOUND - sounding) * RANK.thin;
  return lowest < (CLEAR_FROM_MIDI[next - lowest] ?? 0) ? thin + RANK.muddyBass : thin;
}
