import { problemsOf } from '../../lesson/check/problems.ts';
import { type LessonDocument, openDocument } from '../../lesson/document.ts';
import { type Definition, type Edition, type Lesson, lessonOf } from '../../lesson/model/lesson.ts';
import type { Entry } from '../../lesson/syntax/read-entry.ts';
import type { ExerciseStatement, Statement } from '../../lesson/syntax/statement.ts';
import type { Problem } from '../../text/problem.ts';
import { onlyPlayedBy, unsoundEntries } from './unsound-entries.ts';

/** What of a lesson can be handed out on one edition. */
export interface SoundPart {
  /**
   * The lesson without all that has an error or rests on one, and the edition in it; its lines keep their numbers. Absent where nothing
   * of it can be trusted.
   */
  readonly whole?: { readonly document: LessonDocument; readonly edition: Edition };
  /** The exercises that are sound, as definitions of the whole lesson, so that they keep their numbers. */
  readonly exercises: readonly Definition<ExerciseStatement>[];
  readonly leftOut: readonly LeftOutExercise[];
}

/** An exercise that is not handed out on an edition. */
export interface LeftOutExercise {
  readonly exercise: Definition<ExerciseStatement>;
  /** Place among the exercises of the lesson, from 1. */
  readonly number: number;
  /** The error that it rests on. */
  readonly because: Problem;
}

/** Lines that the whole music stands on: with an error in one of them nothing of it can be trusted. */
const FOUNDATIONS: ReadonlySet<Statement['kind']> = new Set(['for', 'key', 'meter', 'feel', 'tempo']);

/** Taking out what is unsound may leave others without something; it ends when nothing more falls. */
const MOST_ROUNDS = 4;

/** The sound part of a lesson on one of its editions. A lesson without errors is its own sound part. */
export function soundPart(lesson: Lesson, edition: Edition): SoundPart {
  const { document, definitions } = lesson;
  const errors = errorsOn(document, lesson, edition);
  if (errors.length === 0) return { whole: { document, edition }, exercises: definitions.exercises, leftOut: [] };
  const faults = new Map<Entry, Problem>();
  let foundation: Problem | undefined;
  for (const [entry, problem] of errors) {
    if (!faults.has(entry)) faults.set(entry, problem);
    if (foundation === undefined && isFoundation(entry, edition, problem)) foundation = problem;
  }
  const unsound = unsoundEntries(lesson, edition, faults);
  const exercises: Definition<ExerciseStatement>[] = [];
  const leftOut: LeftOutExercise[] = [];
  definitions.exercises.forEach((exercise, index) => {
    const because = foundation ?? unsound.get(exercise.entry);
    if (because === undefined) exercises.push(exercise);
    else leftOut.push({ exercise, number: index + 1, because });
  });
  const left =
    foundation === undefined ? soundDocument(document, edition, withoutUse(lesson, edition, unsound)) : undefined;
  return { ...(left === undefined ? {} : { whole: left }), exercises, leftOut };
}

/** The errors that concern an edition, each with its entry; in the order of the text. */
function errorsOn(document: LessonDocument, lesson: Lesson, edition: Edition): readonly (readonly [Entry, Problem])[] {
  const isOwn = edition.keeps === 'own';
  return problemsOf(document)
    .filter(({ severity }) => severity === 'error')
    .flatMap((problem): (readonly [Entry, Problem])[] => {
      const entry = entryAt(document, problem.span.start);
      if (entry === undefined) return [];
      if (problem.edition !== undefined) return !isOwn && isAbout(problem.edition, edition) ? [[entry, problem]] : [];
      // What is said of another edition does not concern this one.
      const other = lesson.editions.some(({ block, also }) => block?.entry === entry || also?.entry === entry);
      const own = edition.block?.entry === entry || edition.also?.entry === entry;
      return other && !own ? [] : [[entry, problem]];
    });
}

/** Names of editions may have commas of their own. */
function isAbout(names: string, { name }: Edition): boolean {
  return `, ${names}, `.includes(`, ${name}, `);
}

function entryAt({ entries, starts }: LessonDocument, offset: number): Entry | undefined {
  return entries[
    Math.max(
      0,
      starts.findLastIndex((start) => start <= offset),
    )
  ];
}

/** An edition stands on the lines that make it; a misspelt line may have been one of those that all music stands on. */
function isFoundation(entry: Entry, edition: Edition, { fixes }: Problem): boolean {
  const { statement } = entry;
  if (entry === edition.block?.entry || entry === edition.also?.entry) return true;
  if (statement.kind !== 'unknown') return FOUNDATIONS.has(statement.kind);
  const meant = (fixes ?? []).flatMap(({ edits }) => edits.map(({ text }) => text));
  return meant.some((word) => FOUNDATIONS.has(word as Statement['kind']));
}

/** The lesson with the entries taken out, and then with whatever has an error now. */
function soundDocument(document: LessonDocument, { name }: Edition, unsound: ReadonlySet<Entry>): SoundPart['whole'] {
  let left = without(document, unsound);
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const lesson = lessonOf(left);
    const now = lesson.editions.find((edition) => edition.name === name);
    if (now === undefined) break;
    const errors = errorsOn(left, lesson, now);
    if (errors.length === 0) return { document: left, edition: now };
    const faults = new Map(errors);
    left = without(left, withoutUse(lesson, now, unsoundEntries(lesson, now, faults)));
  }
  return undefined;
}

/** What is unsound, and what is of no use without it. */
function withoutUse(lesson: Lesson, edition: Edition, unsound: ReadonlyMap<Entry, Problem>): ReadonlySet<Entry> {
  const entries = new Set(unsound.keys());
  return new Set([...entries, ...onlyPlayedBy(lesson, edition, entries)]);
}

/** The document with nothing but empty lines in the place of the entries. */
function without(document: LessonDocument, entries: ReadonlySet<Entry>): LessonDocument {
  const text = document.entries.map((entry) =>
    entries.has(entry) ? (entry.text.match(/\r\n?|\n/g) ?? []).join('') : entry.text,
  );
  return openDocument(text.join(''), document.chordStyle);
}
