import { readdirSync, readFileSync } from 'node:fs';
import { type ExportedExercise, exportedExercise } from '../../shared/export/exported-exercise.ts';
import { openDocument } from '../../shared/lesson/document.ts';
import { lessonOf } from '../../shared/lesson/model/lesson.ts';
import { generatedLesson } from '../engrave/collisions/generated-lessons.ts';

const SAMPLES = new URL('../../client/samples/', import.meta.url);

/** File name and text of every sample lesson. */
export const samples = readdirSync(SAMPLES)
  .filter((name) => name.endsWith('.lesson'))
  .map((name) => [name, readFileSync(new URL(name, SAMPLES), 'utf8')] as const);

/** Every exercise of a lesson on every edition. */
export function exercisesOf(text: string): readonly ExportedExercise[] {
  const document = openDocument(text);
  const { editions, definitions } = lessonOf(document);
  return editions.flatMap(({ name }) =>
    definitions.exercises.flatMap((exercise) => exportedExercise(document, name, exercise) ?? []),
  );
}

/** The one exercise of a snippet, on its own instrument. */
export function exerciseOf(text: string): ExportedExercise {
  const [exercise] = exercisesOf(text);
  if (exercise === undefined) throw new Error('The snippet has no exercise that plays anything.');
  return exercise;
}

/** Lessons made by chance, so many from a seed on. */
export function* generatedExercises(
  count: number,
): Generator<{ readonly seed: number; readonly exercise: ExportedExercise }> {
  for (let seed = 0; seed < count; seed += 1)
    for (const exercise of exercisesOf(generatedLesson(seed))) yield { seed, exercise };
}
