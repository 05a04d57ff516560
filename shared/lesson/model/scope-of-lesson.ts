import type { SequenceDifficulty } from '../../hand/difficulty-of-sequence.ts';
import type { Shape } from '../../neck/shape.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type { ExerciseStatement, GridStatement, ProgressionStatement } from '../syntax/statement.ts';
import { resolvedOn } from './chords.ts';
import { fingeredOn } from './fingered-on.ts';
import { lessonDifficulty } from './fingerings.ts';
import { chosenFor } from './fingerings-chosen.ts';
import { firstUses } from './first-uses.ts';
import type { Definition, Definitions, Edition, Lesson } from './lesson.ts';
import { movedGrid, writtenGrid } from './moved-grid.ts';
import { firstWith, neighbourIn } from './neighbours.ts';
import type { ResolvedChord } from './resolved-chord.ts';
import type { Named, NameKind, Scope } from './scope.ts';
import type { Settings } from './settings.ts';
import { shapesOfEdition } from './shapes-to-move.ts';
import type { TimedGrid } from './timed-grid.ts';
import { timedOn } from './timed-on.ts';

const bound = new WeakMap<Edition, Scope>();

/**
 * The scope of one edition: what its `edition` block gives comes before what the lesson gives. Kept with the edition, which belongs
 * to one lesson and never changes.
 */
export function scopeOf(lesson: Lesson, edition: Edition = lesson.editions[0]): Scope {
  const known = bound.get(edition);
  if (known !== undefined) return known;
  const scope = newScope(lesson, edition);
  bound.set(edition, scope);
  return scope;
}

/** How many scopes there were. A number and no object, since thousands of answers are marked with it at each key. */
let versions = 0;

function newScope(lesson: Lesson, edition: Edition): Scope {
  const { definitions, settings } = lesson;
  const block = edition.block?.statement;
  const firstOf = <S>(list: readonly { readonly statement: S }[] | undefined): S | undefined => list?.[0]?.statement;
  const exercises = definitions.exercises.map(({ statement }) => statement);
  // What the edition has in the place of the header's.
  const own: Settings = { ...settings, instrument: edition.instrument, ...(edition.key && { key: edition.key }) };
  let editions: readonly Scope[] | undefined;
  let difficulty: { readonly value: SequenceDifficulty | undefined } | undefined;
  let moved: ReadonlyMap<string, Shape> | undefined;
  const grids = new Map<GridStatement, GridStatement>();
  const resolved = new Map<string, ResolvedChord | undefined>();
  const timed = new Map<GridStatement, TimedGrid | undefined>();
  const scope: Scope = {
    edition: () => edition,
    ownInstrument: () => settings.instrument,
    chord: (text) =>
      block?.chords.find(({ chord }) => chord?.text === text) ??
      firstOf(definitions.chords.get(text)) ??
      firstOf(definitions.chordsByName.get(text)),
    resolved: (text) => {
      if (!resolved.has(text)) resolved.set(text, resolvedOn(scope, text));
      return resolved.get(text);
    },
    progression: (name) => firstOf(definitions.progressions.get(name)),
    grid: (kind, name) => {
      const replacing = block?.grids.find((grid) => grid.kind === kind && grid.name?.text === name);
      const own = firstOf((kind === 'pattern' ? definitions.patterns : definitions.melodies).get(name));
      if (replacing !== undefined || own === undefined || edition.keeps !== 'key') return replacing ?? own;
      // One document asks for the same grid many times.
      const known = grids.get(own) ?? movedGrid(scope, own).statement;
      grids.set(own, known);
      return known;
    },
    family: (name) => firstOf(definitions.families.get(name)),
    knows: (kind, name) => tableOf(definitions, kind).has(name),
    isUnread: (name) => definitions.unread.has(name),
    setting: (name) => own[name],
    names: (kind) => namesOf(lesson, kind).join('\n'),
    neighbour: (text, side) => neighbourIn(progressionsOf(definitions), text, side),
    chosenFingering: (text) => chosenFor(scope, text, firstWith(progressionsOf(definitions), text)),
    timed: (statement) => {
      if (!timed.has(statement)) timed.set(statement, timedOn(scope, statement));
      return timed.get(statement);
    },
    movedShape: (text) => {
      if (edition.keeps !== 'key') return undefined;
      moved ??= shapesOfEdition(scopeOf(lesson), edition, definitions);
      return moved.get(text) ?? moved.get(firstOf(definitions.chordsByName.get(text))?.chord?.text ?? '');
    },
    fingered: (statement) => fingeredOn(scope, statement),
    difficulty: () => {
      difficulty ??= { value: lessonDifficulty(scope) };
      return difficulty.value;
    },
    firstPlayedIn: (name) => firstUses(definitions).get(name),
    exercises: () => exercises,
    editions: () => {
      editions ??= lesson.editions.map((other) => scopeOf(lesson, other));
      return editions;
    },
    entryOf: (statement) => entryOf(lesson, edition, statement),
  };
  // Not copied into a scope that is made from this one with other answers.
  return Object.defineProperty(scope, 'version', { value: ++versions, enumerable: false });
}

function* progressionsOf({ progressions }: Definitions): Generator<ProgressionStatement> {
  for (const list of progressions.values()) for (const { statement } of list) yield statement;
}

function namesOf(lesson: Lesson, kind: NameKind): readonly string[] {
  return [...tableOf(lesson.definitions, kind).keys()];
}

function tableOf(definitions: Definitions, kind: NameKind): ReadonlyMap<string, readonly Definition<Named>[]> {
  switch (kind) {
    case 'chord':
      return definitions.chords;
    case 'progression':
      return definitions.progressions;
    case 'pattern':
      return definitions.patterns;
    case 'melody':
      return definitions.melodies;
    case 'family':
      return definitions.families;
  }
}

const exerciseEntries = new WeakMap<Definitions, ReadonlyMap<ExerciseStatement, Entry>>();

function entriesOfExercises(definitions: Definitions): ReadonlyMap<ExerciseStatement, Entry> {
  const known = exerciseEntries.get(definitions);
  if (known !== undefined) return known;
  const entries = new Map(definitions.exercises.map(({ statement, entry }) => [statement, entry]));
  exerciseEntries.set(definitions, entries);
  return entries;
}

function entryOf(lesson: Lesson, edition: Edition, asked: Named): Entry | undefined {
  const statement = asked.kind === 'pattern' || asked.kind === 'melody' ? writtenGrid(asked) : asked;
  if (statement.kind === 'exercise') {
    return entriesOfExercises(lesson.definitions).get(statement);
  }
  const name = statement.kind === 'chord' ? statement.chord?.text : statement.name?.text;
  if (name === undefined) return undefined;
  const list = tableOf(lesson.definitions, statement.kind).get(name) ?? [];
  // What is not the lesson's own stands in the edition's block.
  return list.find((definition) => definition.statement === statement)?.entry ?? edition.block?.entry;
}
