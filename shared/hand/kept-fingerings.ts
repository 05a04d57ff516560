import type { Instrument } from '../neck/instrument.ts';
import { printShape, type Shape } from '../neck/shape.ts';
import type { Finger } from './finger.ts';
import type { Fingering } from './fingering.ts';
import { fingeringsOf } from './fingering-search.ts';
import { type JudgedFingers, judgeFingers } from './given-fingers.ts';
import { type HandSize, printHand } from './hand.ts';
import type { FingeredSequence, SequenceChord } from './sequence.ts';
import { fingerSequence } from './sequence-fingering.ts';

// What was worked out for a hand on an instrument, kept by what was asked: the same question gets the same value, so that whoever
// compares answers sees that nothing has changed.

/** Answers of each kind that are kept for one instrument; the oldest goes first. A long lesson and its offers ask for some hundreds. */
const ANSWERS_KEPT = 2000;

interface Kept {
  readonly ways: Map<string, readonly Fingering[]>;
  readonly judged: Map<string, JudgedFingers>;
  readonly sequences: Map<string, FingeredSequence>;
}

const keptByInstrument = new WeakMap<Instrument, Kept>();

/** Every way to hold the shape, best first, as `fingeringsOf` finds them. */
export function waysToHold(instrument: Instrument, shape: Shape, hand: HandSize): readonly Fingering[] {
  const key = `${printHand(hand)} ${printShape(shape)}`;
  return keep(keptFor(instrument).ways, key, () => fingeringsOf(instrument, shape, hand));
}

/** What fingers that the lesson gives come to, as `judgeFingers` judges them. */
export function givenFingers(
  instrument: Instrument,
  shape: Shape,
  given: readonly (number | 'T')[],
  hand: HandSize,
): JudgedFingers {
  const key = `${printHand(hand)} ${printShape(shape)} ${given.join('-')}`;
  return keep(keptFor(instrument).judged, key, () => judgeFingers(instrument, shape, given, hand));
}

/** The fingers of a whole sequence, as `fingerSequence` chooses them. */
export function fingersOfSequence(
  instrument: Instrument,
  chords: readonly SequenceChord[],
  hand: HandSize,
  repeats: boolean,
): FingeredSequence {
  const told = chords.map(({ shape, given, seconds, strings }) => {
    const spare = strings?.map(({ before, after }) => `${before},${after}`).join(' ') ?? '';
    return `${printShape(shape)} ${given?.join('-') ?? ''} ${seconds ?? ''} ${spare}`;
  });
  const key = `${printHand(hand)} ${repeats ? 'round' : 'once'} ${told.join('|')}`;
  return keep(keptFor(instrument).sequences, key, () => fingerSequence(instrument, chords, hand, { repeats }));
}

/** The way among all of the shape's that has these fingers: one value for equal fingerings, wherever they were chosen. */
export function sameWay(
  instrument: Instrument,
  shape: Shape,
  hand: HandSize,
  fingers: readonly (Finger | undefined)[],
): Fingering | undefined {
  return waysToHold(instrument, shape, hand).find((way) => way.fingers.every((finger, at) => finger === fingers[at]));
}

function keptFor(instrument: Instrument): Kept {
  const known = keptByInstrument.get(instrument);
  if (known !== undefined) return known;
  const fresh: Kept = { ways: new Map(), judged: new Map(), sequences: new Map() };
  keptByInstrument.set(instrument, fresh);
  return fresh;
}

function keep<T>(answers: Map<string, T>, key: string, work: () => T): T {
  const known = answers.get(key);
  if (known !== undefined) {
    // What was asked last goes last.
    answers.delete(key);
    answers.set(key, known);
    return known;
  }
  const fresh = work();
  answers.set(key, fresh);
  for (const oldest of answers.keys()) {
    if (answers.size <= ANSWERS_KEPT) break;
    answers.delete(oldest);
  }
  return fresh;
}
