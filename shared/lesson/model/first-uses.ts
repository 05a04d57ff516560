import type { ExerciseStatement } from '../syntax/statement.ts';
import type { Definitions } from './lesson.ts';

const kept = new WeakMap<Definitions, ReadonlyMap<string, ExerciseStatement>>();

/** By the name of a pattern or melody, the first exercise that plays it. One pass over the exercises, kept with them. */
export function firstUses(definitions: Definitions): ReadonlyMap<string, ExerciseStatement> {
  const known = kept.get(definitions);
  if (known !== undefined) return known;
  const found = new Map<string, ExerciseStatement>();
  for (const { statement } of definitions.exercises) {
    const { each, at } = statement;
    for (const { members } of [...statement.with, ...(each === undefined ? [] : [each]), ...at]) {
      for (const { names } of members) {
        for (const { text } of names) if (!found.has(text)) found.set(text, statement);
      }
    }
  }
  kept.set(definitions, found);
  return found;
}
