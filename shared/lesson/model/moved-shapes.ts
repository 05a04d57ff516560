import { difficultyOfChange, difficultyOfShape } from '../../hand/difficulty.ts';
import { MOST_DIFFICULT } from '../../hand/difficulty-table.ts';
import { type HandSize, printHand } from '../../hand/hand.ts';
import { fingersOfSequence, waysToHold } from '../../hand/kept-fingerings.ts';
import { neckAboveCapo } from '../../neck/capo.ts';
import type { Instrument } from '../../neck/instrument.ts';
import { lowestSounding, soundingMidi, stringsInOrder } from '../../neck/pitches.ts';
import { printShape, type Shape } from '../../neck/shape.ts';
import { namesMoveBy } from '../../neck/tuning-distance.ts';
import { Remembered } from '../../text/remembered.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { type Note, pitchClass } from '../../theory/note.ts';
import { type ShapeWishes, shapesFor, type Voicing } from '../../voicing/shapes.ts';
import { type ChoiceProblem, exchangedChoice } from './exchanged-choice.ts';
import {
  CANDIDATE_MARGIN,
  MOST_CANDIDATES,
  PLACED_FROM_FRET,
  MOVED_SHAPE_POINTS as POINTS,
  REGION_FRETS,
} from './moved-shape-table.ts';

/** A chord as the lesson holds it on its own instrument. */
export interface ChordToMove {
  readonly text: string;
  readonly symbol: ChordSymbol;
  readonly shape: Shape;
  /** It has a label, so that it stands where it does on purpose. */
  readonly labelled: boolean;
}

/** All that the lesson holds: its chords, and which of them follow each other. */
export interface ShapesToMove {
  readonly own: Instrument;
  readonly hand: HandSize;
  readonly chords: readonly ChordToMove[];
  /** Texts of chords that follow each other, each pair once. */
  readonly pairs: readonly (readonly [string, string])[];
}

/**
 * Shapes for the same names on another instrument, by the chord's text: chosen for all of the lesson's changes together, so that
 * shapes and changes are hardly harder than the lesson's own; what stands high on the neck or has a label keeps its region and its
 * top note as near as there are such shapes. Where the strings have the same names, the lesson's own shapes stay. A chord that has no
 * shape there is left out. Equal questions get the same value.
 */
export function movedShapes(instrument: Instrument, lesson: ShapesToMove): ReadonlyMap<string, Shape> {
  const question = printQuestion(lesson);
  const known = kept.get(instrument) ?? {
    answers: new Map(),
    shapes: new Map(),
    changes: new Remembered(CHANGES_KEPT),
  };
  kept.set(instrument, known);
  const before = known.answers.get(question);
  if (before !== undefined) return before;
  const found = new Map(
    [...chosenShapes(instrument, lesson, known.changes)].map(([text, shape]) => {
      // One value for equal shapes, so that what is drawn of a chord stays while only another one changes.
      const name = printShape(shape);
      const same = known.shapes.get(name) ?? shape;
      known.shapes.set(name, same);
      return [text, same];
    }),
  );
  const [oldest] = known.answers.keys();
  if (known.answers.size >= QUESTIONS_KEPT && oldest !== undefined) known.answers.delete(oldest);
  known.answers.set(question, found);
  return found;
}

interface Kept {
  readonly answers: Map<string, ReadonlyMap<string, Shape>>;
  readonly shapes: Map<string, Shape>;
  /** Difficulty of changes between two shapes. Unit: points. */
  readonly changes: Remembered<string, number>;
}

const kept = new WeakMap<Instrument, Kept>();

const QUESTIONS_KEPT = 8;

function printQuestion({ own, hand, chords, pairs }: ShapesToMove): string {
  const told = chords.map(({ text, symbol, shape, labelled }) =>
    [text, symbol.text, printShape(shape), labelled].join(' '),
  );
  const strings = own.openStrings.map(({ letter, accidental, octave }) => `${letter}${accidental}${octave}`);
  return [strings.join(' '), own.name, printHand(hand), ...told, ...pairs.map((pair) => pair.join(' > '))].join('\n');
}

function chosenShapes(
  instrument: Instrument,
  lesson: ShapesToMove,
  changes: Remembered<string, number>,
): ReadonlyMap<string, Shape> {
  const { chords, problem } = weighedShapes(instrument, lesson, changes);
  const chosen = exchangedChoice(problem);
  return new Map(
    chords.flatMap(({ text, shapes }, at) => {
      const shape = shapes[chosen[at] ?? 0];
      return shape === undefined ? [] : [[text, shape]];
    }),
  );
}

/** The shapes that are weighed for each chord that has any, and what each choice of them costs. */
export function weighedShapes(
  instrument: Instrument,
  lesson: ShapesToMove,
  changes: Remembered<string, number> = new Remembered(CHANGES_KEPT),
): {
  readonly chords: readonly { readonly text: string; readonly shapes: readonly Shape[] }[];
  readonly problem: ChoiceProblem;
} {
  const stay = namesMoveBy(lesson.own, instrument) === 0;
  const last = instrument.frets - instrument.capoFret;
  const weighed = lesson.chords.flatMap((chord) => {
    const fits = chord.shape.every((fret) => fret === 'muted' || fret <= last);
    const list = stay && fits ? [{ shape: chord.shape, points: 0 }] : candidatesFor(instrument, lesson, chord);
    return list.length > 0 ? [{ text: chord.text, own: chord.shape, list }] : [];
  });
  const placeOf = new Map(weighed.map(({ text }, at) => [text, at]));
  const pairs = lesson.pairs.flatMap(([from, to]): readonly (readonly [number, number])[] => {
    const [a, b] = [placeOf.get(from), placeOf.get(to)];
    return a === undefined || b === undefined || a === b ? [] : [[a, b]];
  });
  const harderBy = (from: Shape, to: Shape, own: readonly [Shape, Shape]): number => {
    const here = changeDifficulty(changes, instrument, lesson.hand, from, to);
    const there = changeDifficulty(changes, lesson.own, lesson.hand, ...own);
    return POINTS.change * here + POINTS.harder * Math.max(0, here - there);
  };
  const problem: ChoiceProblem = {
    sizes: weighed.map(({ list }) => list.length),
    alone: (thing, choice) => weighed[thing]?.list[choice]?.points ?? 0,
    pairs,
    between: (pair, first, second) => {
      const [from, to] = (pairs[pair] ?? []).map((thing) => weighed[thing]);
      const [a, b] = [from?.list[first], to?.list[second]];
      return from === undefined || to === undefined || a === undefined || b === undefined
        ? 0
        : harderBy(a.shape, b.shape, [from.own, to.own]);
    },
  };
  return { chords: weighed.map(({ text, list }) => ({ text, shapes: list.map(({ shape }) => shape) })), problem };
}

interface Weighed {
  readonly shape: Shape;
  readonly points: number;
}

/** So many shapes of a chord with a written bass are looked at: up the neck there are dozens that have it lowest. Unit: shapes. */
const MOST_WITH_BASS = 200;

/** The few shapes that are worth weighing with their neighbours, best by themselves first. */
function candidatesFor(instrument: Instrument, { own, hand }: ShapesToMove, chord: ChordToMove): readonly Weighed[] {
  const neck = neckAboveCapo(instrument);
  const ground = groundOf(neckAboveCapo(own), chord);
  const found = new Map<string, { readonly voicing: Voicing; readonly rank: number }>();
  const { bass } = chord.symbol;
  for (const wishes of wishesFor(ground)) {
    // What has the written bass lowest stands before all that has not; each of the two has an order of its own.
    const ranks = { lowest: 0, elsewhere: 0 };
    const asked = bass === undefined ? wishes : { ...wishes, max: MOST_WITH_BASS };
    for (const voicing of shapesFor(chord.symbol, neck, asked)) {
      const rank = ranks[bassIsLowest(neck, bass, voicing.shape) ? 'lowest' : 'elsewhere']++;
      const name = printShape(voicing.shape);
      if (!found.has(name)) found.set(name, { voicing, rank });
    }
  }
  const ownWay = waysToHold(own, chord.shape, hand)[0];
  const ownDifficulty = ownWay === undefined ? MOST_DIFFICULT : difficultyOfShape(ownWay).total;
  const cheap = [...found.values()].map(({ voicing, rank }) => ({
    shape: voicing.shape,
    points: pointsWithoutHand(neck, ground, voicing, rank) + pointsOfBass(neck, bass, voicing.shape),
  }));
  cheap.sort(byPoints);
  // The hand is asked of the best only: to find fingers takes far longer than all the rest.
  const weighed = cheap.slice(0, 2 * MOST_CANDIDATES).map(({ shape, points }) => ({
    shape,
    points: points + pointsOfHand(instrument, hand, shape, ownDifficulty),
  }));
  weighed.sort(byPoints);
  const limit = (weighed[0]?.points ?? 0) + CANDIDATE_MARGIN;
  return weighed.filter(({ points }) => points <= limit).slice(0, MOST_CANDIDATES);
}

function byPoints(one: Weighed, other: Weighed): number {
  return one.points - other.points;
}

/** What the lesson's own shape is like. */
interface OwnGround {
  /** High on the neck, or labelled. */
  readonly placed: boolean;
  /** Mean of the stopped frets; 0 where all strings are open. */
  readonly fret: number;
  readonly top: number | undefined;
  readonly strings: number;
  readonly muted: number;
  readonly open: number;
  readonly tones: number;
}

function groundOf(own: Instrument, { shape, labelled }: ChordToMove): OwnGround {
  const stopped = shape.flatMap((fret) => (fret === 'muted' || fret === 0 ? [] : [fret]));
  const midi = soundingMidi(own, shape).filter((one) => one !== undefined);
  return {
    placed: labelled || (stopped.length > 0 && Math.min(...stopped) >= PLACED_FROM_FRET),
    fret: meanFret(shape),
    top: midi.length === 0 ? undefined : Math.max(...midi),
    strings: shape.length,
    muted: shape.length - midi.length,
    open: openIn(shape),
    tones: new Set(midi.map((one) => one % 12)).size,
  };
}

function openIn(shape: Shape): number {
  return shape.filter((fret) => fret === 0).length;
}

function meanFret(shape: Shape): number {
  const stopped = shape.flatMap((fret) => (fret === 'muted' || fret === 0 ? [] : [fret]));
  return stopped.length === 0 ? 0 : stopped.reduce((sum, fret) => sum + fret, 0) / stopped.length;
}

function wishesFor({ placed, fret }: OwnGround): readonly ShapeWishes[] {
  if (!placed) return [{}];
  const low = Math.max(1, Math.floor(fret) - REGION_FRETS);
  return [{ within: [low, Math.ceil(fret) + REGION_FRETS] }, {}];
}

function pointsWithoutHand(neck: Instrument, own: OwnGround, voicing: Voicing, rank: number): number {
  const { shape, omits } = voicing;
  const midi = soundingMidi(neck, shape).filter((one) => one !== undefined);
  const top = Math.max(...midi);
  const mayBeMuted = own.strings === shape.length ? own.muted : 0;
  const silent = shape.length > 4 ? 0 : Math.max(0, shape.length - midi.length - mayBeMuted);
  const sounding = shape.flatMap((fret, at) => (fret === 'muted' ? [] : [at]));
  const inner = shape.length > 4 ? (sounding.at(-1) ?? 0) - (sounding[0] ?? 0) + 1 - sounding.length : 0;
  const less = omits.length > 0 && new Set(midi.map((one) => one % 12)).size < own.tones ? omits.length : 0;
  const topMoves = own.top === undefined ? 0 : Math.abs(top - own.top);
  const otherTop = topMoves % 12 === 0 ? 0 : 1;
  const away = Math.abs(meanFret(shape) - own.fret);
  const upper = shape.length > 4 && own.strings < shape.length ? shape.slice(-own.strings) : [];
  const silentUpper = POINTS.silentFinger * upper.filter((fret) => fret === 'muted').length;
  const openLost = POINTS.openLost * Math.max(0, own.open - openIn(shape));
  const place = own.placed
    ? POINTS.regionOfPlaced * away + POINTS.otherTopOfPlaced * otherTop + POINTS.topStepOfPlaced * topMoves + openLost
    : POINTS.region * away + POINTS.otherTop * otherTop;
  const usual = (own.placed ? POINTS.rankOfPlaced : POINTS.rank) * rank;
  return place + usual + silentUpper + POINTS.silent * silent + POINTS.silentInner * inner + POINTS.omitted * less;
}

/** The written bass against what sounds. */
function pointsOfBass(neck: Instrument, bass: Note | undefined, shape: Shape): number {
  if (bassIsLowest(neck, bass, shape)) return 0;
  if (!stringsInOrder(neck)) return POINTS.bassElsewhere;
  return shape.length > 4 ? POINTS.bassElsewhereOnMore : POINTS.bassElsewhereInOrder;
}

/** True also where no bass is written. */
function bassIsLowest(neck: Instrument, bass: Note | undefined, shape: Shape): boolean {
  const midi = lowestSounding(neck, shape)?.midi;
  return bass === undefined || (midi !== undefined && midi % 12 === pitchClass(bass));
}

function pointsOfHand(instrument: Instrument, hand: HandSize, shape: Shape, ownDifficulty: number): number {
  const [best] = waysToHold(instrument, shape, hand);
  if (best === undefined || best.verdict === 'out-of-reach') return POINTS.outOfReach;
  const { total } = difficultyOfShape(best);
  const stretched = best.verdict === 'stretched' ? POINTS.stretched : 0;
  const easier = Math.max(0, ownDifficulty - total - POINTS.easierFree);
  return stretched + POINTS.harder * Math.max(0, total - ownDifficulty) + POINTS.easier * easier;
}

/** How hard the change between two shapes is with the fingers that suit both. Unit: points. */
function changeDifficulty(
  changes: Remembered<string, number>,
  instrument: Instrument,
  hand: HandSize,
  from: Shape,
  to: Shape,
): number {
  const key = `${instrument.name} ${printHand(hand)} ${printShape(from)} > ${printShape(to)}`;
  return changes.get(key, () => {
    const [change] = fingersOfSequence(instrument, [{ shape: from }, { shape: to }], hand, false).changes;
    return change === undefined ? 0 : difficultyOfChange(change.change).total;
  });
}

const CHANGES_KEPT = 4000;
