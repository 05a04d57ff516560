import { difficultyOfLesson, type SequenceDifficulty } from '../../hand/difficulty-of-sequence.ts';
import type { Fingering } from '../../hand/fingering.ts';
import type { FingeredSequence, SequenceChord } from '../../hand/sequence.ts';
import type { ExerciseStatement, ProgressionStatement } from '../syntax/statement.ts';
import { fingersOfSequence, givenFingers, waysToHold } from './fingerings-kept.ts';
import { createMemo } from './memo.ts';
import { type PlayedSequence, playedSequence } from './played-sequence.ts';
import { writtenChords } from './progression-sequence.ts';
import type { ResolvedChord } from './resolved-chord.ts';
import type { Scope } from './scope.ts';

/**
 * How a chord is held on the scope's edition by the lesson's hand: with the fingers that the lesson gives where they can work; else
 * with those chosen for the whole of the first progression that uses the chord; else in the best way for the shape by itself, which
 * may be out of reach. Nothing where no four fingers can hold it. Equal answers are the same value.
 */
export function fingeringFor(scope: Scope, chord: ResolvedChord): Fingering | undefined {
  const { instrument } = scope.edition();
  const hand = scope.setting('hand');
  if (chord.fingers !== undefined) {
    const { fingering, faults } = givenFingers(instrument, chord.shape, chord.fingers, hand);
    if (fingering !== undefined && faults.length === 0) return fingering;
  }
  const ways = waysToHold(instrument, chord.shape, hand);
  const chosen = scope.chosenFingering(chord.text);
  // A shape that is only thought of may go by the name of one that the lesson uses.
  return chosen !== undefined && ways.includes(chosen) ? chosen : ways[0];
}

/** How hard an exercise or a progression is on the scope's edition; nothing where it plays no chord. */
export function difficultyFor(
  scope: Scope,
  statement: ExerciseStatement | ProgressionStatement,
): SequenceDifficulty | undefined {
  const sequences = sequencesOf(scope, statement);
  return sequences.length === 0 ? undefined : difficultyOfLesson(sequences);
}

/**
 * How hard the whole lesson is on the scope's edition: that of its exercises; where it has none, of its progressions.
 * Nothing where no chord is played. Where it is shown, `CAUTION_ON_STRETCH` belongs.
 */
export function lessonDifficulty(scope: Scope): SequenceDifficulty | undefined {
  const exercises = scope.exercises().flatMap((statement) => sequencesOf(scope, statement));
  const names = scope.names('progression').split('\n');
  const progressions = () =>
    names.flatMap((name) => {
      const progression = scope.progression(name);
      return progression === undefined ? [] : sequencesOf(scope, progression);
    });
  const sequences = exercises.length > 0 ? exercises : progressions();
  return sequences.length === 0 ? undefined : difficultyOfLesson(sequences);
}

const keptExercises = createMemo<FingeredExercise>();
const keptProgressions = createMemo<FingeredSequence>();

/** What an exercise plays, and the fingers chosen for the whole of it. */
export interface FingeredExercise extends PlayedSequence {
  readonly fingered: FingeredSequence;
}

/** The fingers of an exercise at its greatest tempo. Worked out once, until something that it is made of changes. */
export function fingeredExercise(scope: Scope, statement: ExerciseStatement): FingeredExercise | undefined {
  const entry = scope.entryOf(statement);
  if (entry === undefined) return undefined;
  return keptExercises.get(entry, scope, scope.edition().name, (asked) => {
    const played = playedSequence(asked, statement);
    return { ...played, fingered: fingersOf(asked, played.chords, played.repeats) };
  });
}

function sequencesOf(scope: Scope, statement: ExerciseStatement | ProgressionStatement): readonly FingeredSequence[] {
  const sequence =
    statement.kind === 'exercise'
      ? fingeredExercise(scope, statement)?.fingered
      : fingeredProgression(scope, statement);
  return sequence === undefined || sequence.chords.length === 0 ? [] : [sequence];
}

function fingeredProgression(scope: Scope, statement: ProgressionStatement): FingeredSequence | undefined {
  const entry = scope.entryOf(statement);
  if (entry === undefined) return undefined;
  return keptProgressions.get(entry, scope, scope.edition().name, (asked) =>
    fingersOf(asked, writtenChords(asked, statement), false),
  );
}

function fingersOf(
  scope: Scope,
  chords: readonly { readonly sequence: SequenceChord }[],
  repeats: boolean,
): FingeredSequence {
  const asked = chords.map(({ sequence }) => sequence);
  return fingersOfSequence(scope.edition().instrument, asked, scope.setting('hand'), repeats);
}
