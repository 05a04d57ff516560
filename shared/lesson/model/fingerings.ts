import { difficultyOfLesson, type SequenceDifficulty } from '../../hand/difficulty-of-sequence.ts';
import type { Fingering } from '../../hand/fingering.ts';
import { givenFingers, waysToHold } from '../../hand/kept-fingerings.ts';
import type { FingeredSequence } from '../../hand/sequence.ts';
import type { ExerciseStatement, ProgressionStatement } from '../syntax/statement.ts';
import type { FingeredStatement } from './fingered-statement.ts';
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
  const played = scope.fingered(statement);
  return played === undefined || played.chords.length === 0 ? undefined : keptDifficulty([played]);
}

/**
 * How hard the whole lesson is on the scope's edition: that of its exercises; where it has none, of its progressions.
 * Nothing where no chord is played. Where it is shown, `CAUTION_ON_STRETCH` belongs.
 */
export function lessonDifficulty(scope: Scope): SequenceDifficulty | undefined {
  return keptDifficulty(lessonSequences(scope));
}

/** What counts for the difficulty of the lesson; its moments name their sequence by its place in this list. */
export function lessonSequences(scope: Scope): readonly FingeredStatement[] {
  const exercises = differentOnes(scope, scope.exercises());
  if (exercises.length > 0) return exercises;
  const names = scope.names('progression').split('\n');
  return differentOnes(
    scope,
    names.flatMap((name) => scope.progression(name) ?? []),
  );
}

/** Of those that ask the same of the hand the first: equal sequences are the same value. */
function differentOnes(
  scope: Scope,
  statements: readonly (ExerciseStatement | ProgressionStatement)[],
): readonly FingeredStatement[] {
  const different = new Map<FingeredSequence, FingeredStatement>();
  for (const statement of statements) {
    const played = scope.fingered(statement);
    if (played === undefined || played.chords.length === 0 || different.has(played.fingered)) continue;
    different.set(played.fingered, played);
  }
  return [...different.values()];
}

interface KeptDifficulty {
  readonly sequences: readonly FingeredSequence[];
  readonly difficulty: SequenceDifficulty;
}

/** The last difficulty of all lists that begin with a sequence: of a lesson and of its first exercise alone. */
const keptDifficulties = new WeakMap<FingeredSequence, readonly KeptDifficulty[]>();

const DIFFICULTIES_KEPT = 4;

function keptDifficulty(played: readonly FingeredStatement[]): SequenceDifficulty | undefined {
  const sequences = played.map(({ fingered }) => fingered);
  const [first] = sequences;
  if (first === undefined) return undefined;
  const known = keptDifficulties.get(first) ?? [];
  const same = known.find(
    (kept) => kept.sequences.length === sequences.length && kept.sequences.every((one, at) => one === sequences[at]),
  );
  if (same !== undefined) return same.difficulty;
  const difficulty = difficultyOfLesson(sequences);
  keptDifficulties.set(first, [{ sequences, difficulty }, ...known.slice(0, DIFFICULTIES_KEPT - 1)]);
  return difficulty;
}
