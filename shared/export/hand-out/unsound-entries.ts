import type { Edition, Lesson } from '../../lesson/model/lesson.ts';
import { occurrencesIn } from '../../lesson/model/occurrences.ts';
import type { Named, Scope } from '../../lesson/model/scope.ts';
import { scopeOf } from '../../lesson/model/scope-of-lesson.ts';
import type { Entry } from '../../lesson/syntax/read-entry.ts';
import type { Problem } from '../../text/problem.ts';

/** Every entry that has a fault, and every one that rests on such an entry by a name, however far off; each with that fault. */
export function unsoundEntries(
  lesson: Lesson,
  edition: Edition,
  faults: ReadonlyMap<Entry, Problem>,
): ReadonlyMap<Entry, Problem> {
  const scope = scopeOf(lesson, edition);
  const found = new Map<Entry, Problem | undefined>();
  const faultOf = (entry: Entry): Problem | undefined => {
    if (found.has(entry)) return found.get(entry);
    const own = faults.get(entry);
    // Set before others are asked: names may lead around in a circle.
    found.set(entry, own);
    // What an edition replaces stands in for what the lesson has, and is asked by who uses it.
    if (own !== undefined || entry.statement.kind === 'edition') return own;
    for (const used of entriesUsedBy(scope, entry)) {
      const fault = faultOf(used);
      if (fault === undefined) continue;
      found.set(entry, fault);
      return fault;
    }
    return undefined;
  };
  const unsound = new Map<Entry, Problem>();
  for (const entry of lesson.document.entries) {
    const fault = faultOf(entry);
    if (fault !== undefined) unsound.set(entry, fault);
  }
  return unsound;
}

/** What is printed with the exercise that plays it, and by itself where none does. */
const PLAYED: ReadonlySet<Entry['statement']['kind']> = new Set(['pattern', 'melody', 'progression']);

/**
 * Entries that only unsound exercises play. They have no fault; but without their exercises they would be printed by themselves, which
 * the teacher never meant.
 */
export function onlyPlayedBy(lesson: Lesson, edition: Edition, unsound: ReadonlySet<Entry>): ReadonlySet<Entry> {
  const scope = scopeOf(lesson, edition);
  const reached = (from: readonly Entry[]): ReadonlySet<Entry> => {
    const found = new Set<Entry>();
    const waiting = [...from];
    for (let entry = waiting.pop(); entry !== undefined; entry = waiting.pop()) {
      if (found.has(entry)) continue;
      found.add(entry);
      waiting.push(...entriesUsedBy(scope, entry));
    }
    return found;
  };
  const { entries } = lesson.document;
  const needed = reached(entries.filter((entry) => !unsound.has(entry) && !PLAYED.has(entry.statement.kind)));
  const lost = reached(entries.filter((entry) => unsound.has(entry) && entry.statement.kind === 'exercise'));
  return new Set([...lost].filter((entry) => PLAYED.has(entry.statement.kind) && !needed.has(entry)));
}

function entriesUsedBy(scope: Scope, entry: Entry): readonly Entry[] {
  return occurrencesIn(scope, entry.statement).flatMap(({ kind, text, defines }) => {
    if (defines) return [];
    const named = statementOf(scope, kind, text);
    const used = named === undefined ? undefined : scope.entryOf(named);
    return used === undefined ? [] : [used];
  });
}

function statementOf(
  scope: Scope,
  kind: 'chord' | 'progression' | 'pattern' | 'melody' | 'family',
  text: string,
): Named | undefined {
  switch (kind) {
    case 'chord':
      return scope.chord(text);
    case 'progression':
      return scope.progression(text);
    case 'family':
      return scope.family(text);
    default:
      return scope.grid(kind, text);
  }
}
