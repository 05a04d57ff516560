import { printShape } from '../../neck/shape.ts';
import { beatLength, type Meter } from '../../theory/meter.ts';
import { toNumber } from '../../theory/rational.ts';
import type { ExerciseStatement } from '../syntax/statement.ts';
import { type HandStroke, handPart } from './exercise-bars.ts';
import type { PlayedChord } from './fingered-statement.ts';
import { heldTimes, spareStrings } from './held-times.ts';
import { givenWhereItWorks, secondsOfWholeNote } from './progression-sequence.ts';
import type { ResolvedChord } from './resolved-chord.ts';
import type { Scope } from './scope.ts';

/** All that an exercise takes with the fretting hand, one chord after another. */
export interface PlayedSequence {
  readonly chords: readonly PlayedChord[];
  /** The exercise is played more than once. */
  readonly repeats: boolean;
}

/**
 * The chords of an exercise in playing order, with the time for each change at the exercise's greatest tempo: that of the hand, and
 * what single strings give beyond it.
 */
export function playedSequence(scope: Scope, statement: ExerciseStatement): PlayedSequence {
  const { chords, strokes, end, hasStrokes, begins } = laidOut(scope, statement);
  const tempo = statement.tempo?.tempo ?? scope.setting('tempo');
  const wholeNote = tempo && secondsOfWholeNote(tempo, begins);
  const beat = toNumber(beatLength(begins));
  const times = chords.map(({ at, chord }, index) =>
    heldTimes(strokes, at, chords[index + 1]?.at ?? end, chord.shape.length),
  );
  // The last chord leads to the first again, which has its time at the start.
  const begin = chords[0]?.at ?? 0;
  const beforeFirst = strokes.find(({ at, needsShape }) => needsShape && at >= begin)?.at ?? 0;
  return {
    chords: chords.map(({ at, chord, bar }, index): PlayedChord => {
      const next = chords[index + 1]?.at ?? end;
      const arrives = times[index + 1]?.hand.from ?? end + beforeFirst;
      const length = hasStrokes ? arrives - (times[index]?.hand.until ?? at) : Math.min(beat, next - at);
      const spare =
        wholeNote === undefined || !hasStrokes
          ? undefined
          : spareStrings(times[index], times[index + 1] ?? times[0], wholeNote);
      const sequence = {
        shape: chord.shape,
        ...givenWhereItWorks(scope, chord),
        ...(wholeNote === undefined ? {} : { seconds: length * wholeNote }),
        ...(spare === undefined ? {} : { strings: spare }),
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
  readonly begins: Meter;
}

/** All bars on one line of time, in whole notes. A chord that is taken again while it is held is no change. */
function laidOut(scope: Scope, statement: ExerciseStatement): LaidOut {
  const { bars, hasStrokes, begins } = handPart(scope, statement);
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
    for (const stroke of struck) strokes.push({ ...stroke, at: start + stroke.at });
    start += length;
  }
  return { chords, strokes, end: start, hasStrokes, begins };
}
