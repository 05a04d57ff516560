import {
  difficultyOfLesson,
  difficultyOfSequence,
  type SequenceDifficulty,
} from '../../hand/difficulty-of-sequence.ts';
import type { Fingering } from '../../hand/fingering.ts';
import type { FingeredSequence } from '../../hand/sequence.ts';
import type { ExerciseStatement, ProgressionStatement } from '../syntax/statement.ts';
import { fingersOfSequence, givenFingers, waysToHold } from './fingerings-kept.ts';
import { createMemo } from './memo.ts';
import { type PlayedChord, playedSequence } from './played-sequence.ts';
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
  const sequence = fingeredSequence(scope, statement);
  return sequence === undefined || sequence.chords.length === 0 ? undefined : difficultyOfSequence(sequence.fingered);
}

/**
 * How hard the whole lesson is on the scope's edition: that of its exercises; where it has none, of its progressions.
 * Nothing where no chord is played. Where it is shown, `CAUTION_ON_STRETCH` belongs.
 */
export function lessonDifficulty(scope: Scope): SequenceDifficulty | undefined {
  const sequences = lessonSequences(scope).map(({ fingered }) => fingered);
  return sequences.length === 0 ? undefined : difficultyOfLesson(sequences);
}

/** What counts for the difficulty of the lesson; its moments name their sequence by its place in this list. */
export function lessonSequences(scope: Scope): readonly LessonSequence[] {
  const played = (statements: readonly (ExerciseStatement | ProgressionStatement)[]) =>
    statements
      .flatMap((statement) => fingeredSequence(scope, statement) ?? [])
      .filter(({ chords }) => chords.length > 0);
  const exercises = played(scope.exercises());
  if (exercises.length > 0) return exercises;
  return played(
    scope
      .names('progression')
      .split('\n')
      .flatMap((name) => scope.progression(name) ?? []),
  );
}

/** What an exercise or a progression plays, and the fingers chosen for the whole of it. */
export interface LessonSequence {
  readonly title?: string;
  readonly chords: readonly Pick<PlayedChord, 'chord' | 'bar' | 'sequence'>[];
  readonly fingered: FingeredSequence;
}

const kept = createMemo<LessonSequence>();

/** The fingers of an exercise or a progression at its greatest tempo. Worked out once, until something that it is made of changes. */
export function fingeredSequence(
  scope: Scope,
  statement: ExerciseStatement | ProgressionStatement,
): LessonSequence | undefined {
  const entry = scope.entryOf(statement);
  if (entry === undefined) return undefined;
  return kept.get(entry, scope, scope.edition().name, (asked) => {
    const { chords, repeats } =
      statement.kind === 'exercise'
        ? playedSequence(asked, statement)
        : { chords: writtenChords(asked, statement), repeats: false };
    const wanted = chords.map(({ sequence }) => sequence);
    const fingered = fingersOfSequence(asked.edition().instrument, wanted, asked.setting('hand'), repeats);
    const title = statement.kind === 'exercise' ? statement.title?.text : statement.name?.text;
    return { chords, fingered, ...(title === undefined ? {} : { title }) };
  });
}
