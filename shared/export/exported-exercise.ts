import type { LessonDocument } from '../lesson/document.ts';
import { type Definition, type Edition, type Lesson, lessonOf } from '../lesson/model/lesson.ts';
import type { Scope } from '../lesson/model/scope.ts';
import { scopeOf } from '../lesson/model/scope-of-lesson.ts';
import type { ExerciseStatement } from '../lesson/syntax/statement.ts';
import type { Feel, Tempo } from '../lesson/syntax/words.ts';
import type { Instrument } from '../neck/instrument.ts';
import type { Pace } from '../score/clock.ts';
import { exerciseScore } from '../score/exercise-score.ts';
import { temposOf } from '../score/performance-tempos.ts';
import type { ExerciseScore } from '../score/timeline.ts';
import type { Key } from '../theory/key.ts';
import { keyMovedBy } from '../theory/moved-key.ts';

/** One exercise on one edition, with all of its lesson that a file for another program must say. Every format starts from here. */
export interface ExportedExercise {
  readonly lesson: Lesson;
  readonly edition: Edition;
  readonly scope: Scope;
  readonly score: ExerciseScore;
  /** Place among the exercises of the lesson, from 1. */
  readonly number: number;
  /** As printed; `Exercise 3` where the lesson gives no title. */
  readonly title: string;
  readonly lessonTitle: string;
  readonly by?: string;
  readonly instrument: Instrument;
  /** The key that is heard, with the capo and the edition's instrument counted in. */
  readonly soundingKey?: Key;
  /** How far the names of chords lie below what they sound, by the capo. Unit: semitones. */
  readonly soundsAbove: number;
  readonly feel: Feel;
  /** The exercise's own, or the lesson's. */
  readonly tempo?: Tempo;
  /** How fast it begins: the tempo, or the usual one where the lesson says none. */
  readonly pace: Pace;
}

/**
 * The exercise as one edition plays it. Nothing where the lesson has no such edition, or where the exercise has no bars: what it plays
 * is not there, or not written yet.
 */
export function exportedExercise(
  document: LessonDocument,
  editionName: string,
  exercise: Definition<ExerciseStatement>,
): ExportedExercise | undefined {
  const lesson = lessonOf(document);
  const edition = lesson.editions.find(({ name }) => name === editionName);
  const place = lesson.definitions.exercises.findIndex(({ statement }) => statement === exercise.statement);
  if (edition === undefined || place < 0) return undefined;
  const scope = scopeOf(lesson, edition);
  const score = exerciseScore(scope, exercise.entry, exercise.statement);
  if (score.passes.every(({ bars }) => bars.length === 0)) return undefined;
  const { settings } = lesson;
  const { instrument } = edition;
  const key = edition.key;
  const tempo = score.tempo ?? settings.tempo;
  const number = place + 1;
  return {
    lesson,
    edition,
    scope,
    score,
    number,
    title: score.title === '' ? `Exercise ${number}` : score.title,
    lessonTitle: settings.title ?? '',
    ...(settings.by === undefined ? {} : { by: settings.by }),
    instrument,
    ...(key === undefined ? {} : { soundingKey: keyMovedBy(key, instrument.capoFret) }),
    soundsAbove: instrument.capoFret,
    feel: settings.feel,
    ...(tempo === undefined ? {} : { tempo }),
    pace: { perMinute: temposOf(tempo)[0] ?? 0, ...(tempo?.unit === undefined ? {} : { unit: tempo.unit }) },
  };
}
