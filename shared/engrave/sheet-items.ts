import { asksSomething } from '../lesson/asked/question.ts';
import type { LessonDocument } from '../lesson/document.ts';
import type { Edition } from '../lesson/model/lesson.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { ExerciseStatement, Statement } from '../lesson/syntax/statement.ts';
import { isHeader } from './sheet-header.ts';

/** What one place of the file asks the sheet to show. A run of chord lines is one item. */
export interface SheetItem {
  readonly kind: Exclude<Statement['kind'], 'nothing'>;
  /** The entries it is made of, and where each begins in the file. */
  readonly entries: readonly Entry[];
  readonly starts: readonly number[];
  /** What is recognised as the same item after an edit: its kind and name, and which of that name it is. */
  readonly key: string;
  /** Exercises: names of the patterns and progressions that are used here for the first time, each behind its kind and a blank. */
  readonly introduces: readonly string[];
}

/** The items of the sheet's body in the order of the file. One pass over the entries. */
export function itemsOf(document: LessonDocument, edition: Edition): readonly SheetItem[] {
  const used = usedNames(document);
  const items: SheetItem[] = [];
  const counts = new Map<string, number>();
  const keyOf = (name: string): string => {
    const count = counts.get(name) ?? 0;
    counts.set(name, count + 1);
    return `${name} ${count}`;
  };
  document.entries.forEach((entry, index) => {
    const { statement } = entry;
    const start = document.starts[index] ?? 0;
    if (statement.kind === 'nothing' || isHeader(statement)) return;
    const before = items.at(-1);
    if (statement.kind === 'chord' && before?.kind === 'chord' && isNext(document, index)) {
      items[items.length - 1] = { ...before, entries: [...before.entries, entry], starts: [...before.starts, start] };
      return;
    }
    // What an exercise prints needs no second place.
    if (isUsed(statement, used)) return;
    // What an edition block gives shows in the place of what it replaces; only its sentences stand where it does, and only there.
    if (statement.kind === 'edition' && (edition.block?.entry !== entry || statement.prose.length === 0)) return;
    const introduces = statement.kind === 'exercise' ? (used.byExercise.get(entry) ?? []) : [];
    items.push({ kind: statement.kind, entries: [entry], starts: [start], key: keyOf(nameOf(statement)), introduces });
  });
  return items;
}

/** True when nothing that prints stands between this chord line and the last item: the entry before is a chord line too. */
function isNext(document: LessonDocument, index: number): boolean {
  return document.entries[index - 1]?.statement.kind === 'chord';
}

interface Used {
  readonly names: ReadonlySet<string>;
  readonly byExercise: ReadonlyMap<Entry, readonly string[]>;
}

/** What exercises print, and which exercise names it first. */
function usedNames(document: LessonDocument): Used {
  const names = new Set<string>();
  const byExercise = new Map<Entry, readonly string[]>();
  const likes = new Map<string, string>();
  for (const { statement } of document.entries) {
    if (
      (statement.kind === 'pattern' || statement.kind === 'melody') &&
      statement.name !== undefined &&
      statement.like !== undefined
    ) {
      likes.set(statement.name.text, statement.like.text);
    }
  }
  for (const entry of document.entries) {
    if (entry.statement.kind !== 'exercise') continue;
    const introduced: string[] = [];
    for (const name of namesIn(entry, entry.statement)) {
      if (names.has(name)) continue;
      names.add(name);
      introduced.push(name);
      const base = likes.get(name.slice(name.indexOf(' ') + 1));
      // A pattern that others are made from is seen in them.
      if (base !== undefined) names.add(`pattern ${base}`).add(`melody ${base}`);
    }
    byExercise.set(entry, introduced);
  }
  return { names, byExercise };
}

// Entries are values that never change, so what one names may be kept as long as it lives.
const namesByEntry = new WeakMap<Entry, readonly string[]>();

/** All that an exercise names, each name behind its kind and a blank; a grid may be a pattern or a melody. */
function namesIn(entry: Entry, statement: ExerciseStatement): readonly string[] {
  const known = namesByEntry.get(entry);
  if (known !== undefined) return known;
  const bars = [...(statement.play?.members ?? []), ...(statement.over?.members ?? [])];
  const grids = [...statement.with, ...(statement.each === undefined ? [] : [statement.each]), ...statement.at];
  const names = [
    ...bars.flatMap((member) => member.names.map((word) => `progression ${word.text}`)),
    ...grids.flatMap((list) =>
      list.members.flatMap((member) => member.names.flatMap((word) => [`pattern ${word.text}`, `melody ${word.text}`])),
    ),
  ];
  namesByEntry.set(entry, names);
  return names;
}

function isUsed(statement: Statement, used: Used): boolean {
  // A tune that is still to be found is shown where it is asked for.
  if (asksSomething(statement)) return false;
  if (statement.kind !== 'pattern' && statement.kind !== 'melody' && statement.kind !== 'progression') return false;
  return statement.name !== undefined && used.names.has(`${statement.kind} ${statement.name.text}`);
}

function nameOf(statement: Statement): string {
  switch (statement.kind) {
    case 'exercise':
      return `exercise ${statement.title?.text ?? ''}`;
    case 'progression':
    case 'pattern':
    case 'melody':
    case 'family':
    case 'edition':
      return `${statement.kind} ${statement.name?.text ?? ''}`;
    default:
      return statement.kind;
  }
}
