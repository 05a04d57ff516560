import { printShape } from '../../neck/shape.ts';
import { beatLength } from '../../theory/meter.ts';
import { toNumber } from '../../theory/rational.ts';
import type { ExerciseStatement } from '../syntax/statement.ts';
import { type HandStroke, handPart } from './exercise-bars.ts';
import type { PlayedChord } from './fingered-statement.ts';
import { givenWhereItWorks, secondsOfWholeNote } from './progression-sequence.ts';
import type { ResolvedChord } from './resolved-chord.ts';
import type { Scope } from './scope.ts';

/** All that an exercise takes with the fretting hand, one chord after another. */
export interface PlayedSequence {
  readonly chords: readonly PlayedChord[];
  /** The exercise is played more than once. */
  readonly repeats: boolean;
}

/** The chords of an exercise in playing order, with the time for each change at the exercise's greatest tempo. */
export function playedSequence(scope: Scope, statement: ExerciseStatement): PlayedSequence {
  const { chords, strokes, end, hasStrokes } = laidOut(scope, statement);
  const meter = statement.meter?.meter ?? scope.setting('meter');
  const tempo = statement.tempo?.tempo ?? scope.setting('tempo');
  const wholeNote = tempo && secondsOfWholeNote(tempo, meter);
  const beat = toNumber(beatLength(meter));
  // The last chord leads to the first again, which has its time at the start.
  const beforeFirst = strokes[firstFrom(strokes, chords[0]?.at ?? 0)]?.at ?? 0;
  return {
    chords: chords.map(({ at, chord, bar }, index): PlayedChord => {
      const next = chords[index + 1]?.at ?? end;
      const after = chords[index + 2]?.at ?? end;
      const isLast = index === chords.length - 1;
      const quiet = quietLength(strokes, at, next, after) + (isLast ? beforeFirst : 0);
      const length = hasStrokes ? quiet : Math.min(beat, next - at);
      const sequence = {
        shape: chord.shape,
        ...givenWhereItWorks(scope, chord),
        ...(wholeNote === undefined ? {} : { seconds: length * wholeNote }),
      };
      return { chord, sequence, ...(bar === undefined ? {} : { bar }) };
    }),
    repeats: (statement.repeat?.times ?? 1) > 1 || (tempo !== undefined && tempo.from !== tempo.to),
  };
}

interface LaidOut {
  readonly chords: readonly { readonly at: number; readonly chord: ResolvedChord; readonly bar?: number }[];
  /** In order. */
  readonly strokes: readonly HandStroke[];
  readonly end: number;
  readonly hasStrokes: boolean;
}

/** All bars on one line of time, in whole notes. A chord that is taken again while it is held is no change. */
function laidOut(scope: Scope, statement: ExerciseStatement): LaidOut {
  const { bars, hasStrokes } = handPart(scope, statement);
  const chords: { at: number; chord: ResolvedChord; bar?: number }[] = [];
  const strokes: HandStroke[] = [];
  let start = 0;
  let held: string | undefined;
  for (const { length, number, chords: taken, strokes: struck } of bars) {
    for (const { at, chord } of taken) {
      // Where no chord is played the hand has time to go on, from the last stroke before.
      if (chord === undefined) continue;
      const holds = `${printShape(chord.shape)} ${chord.fingers?.join('-') ?? ''}`;
      if (holds === held) continue;
      held = holds;
      chords.push({ at: start + at, chord, ...(number === undefined ? {} : { bar: number }) });
    }
    for (const { at, weak } of struck) strokes.push({ at: start + at, weak });
    start += length;
  }
  return { chords, strokes, end: start, hasStrokes };
}

/**
 * From the last stroke on a chord to the first on the next one: `at`, `next` and `after` are where the chord, the next and the one
 * after that begin. Unit: whole notes.
 */
function quietLength(strokes: readonly HandStroke[], at: number, next: number, after: number): number {
  const first = firstFrom(strokes, next);
  const arrives = Math.min(strokes[first]?.at ?? after, after);
  const last = strokes[first - 1];
  // Only the very last stroke may be let go.
  const leaves = last?.weak === true ? strokes[first - 2] : last;
  return arrives - Math.max(leaves?.at ?? at, at);
}

/** The place of the first stroke that is not before a time. */
function firstFrom(strokes: readonly HandStroke[], time: number): number {
  let low = 0;
  let high = strokes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((strokes[middle]?.at ?? 0) < time) low = middle + 1;
    else high = middle;
  }
  return low;
}
