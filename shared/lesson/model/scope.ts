import type { Fingering } from '../../hand/fingering.ts';
import type { Instrument } from '../../neck/instrument.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type {
  ChordStatement,
  ExerciseStatement,
  FamilyStatement,
  GridStatement,
  ProgressionStatement,
} from '../syntax/statement.ts';
import { type FingeredStatement, fingeredOn } from './fingered-statement.ts';
import { chosenFor } from './fingerings-chosen.ts';
import type { Definition, Definitions, Edition, Lesson } from './lesson.ts';
import { firstWith, neighbourIn, type Side } from './neighbours.ts';
import type { Settings } from './settings.ts';

export type NameKind = 'chord' | 'progression' | 'pattern' | 'melody' | 'family';

export type Named = ChordStatement | ProgressionStatement | GridStatement | FamilyStatement | ExerciseStatement;

/** The questions that an entry may ask about the rest of its lesson, on one edition. */
export interface Scope {
  edition(): Edition;
  /** The instrument that the lesson itself is for, whichever edition this is. */
  ownInstrument(): Instrument;
  /** The line that gives the chord's shape; a plain name with labelled shapes only means the first of them. */
  chord(text: string): ChordStatement | undefined;
  progression(name: string): ProgressionStatement | undefined;
  grid(kind: 'pattern' | 'melody', name: string): GridStatement | undefined;
  family(name: string): FamilyStatement | undefined;
  /** Whether the lesson defines the name at all: an answer that stays the same while what it names is being edited. */
  knows(kind: NameKind, name: string): boolean;
  setting<K extends keyof Settings>(name: K): Settings[K];
  /** All names of a kind, parted by line ends: one text, so that it can be compared. */
  names(kind: NameKind): string;
  /** The chord, as written, that stands before or after this one in the first progression that uses it. */
  neighbour(text: string, side: Side): string | undefined;
  /**
   * The fingers that are chosen for the chord, as written, together with all of the first progression that uses it. Nothing where
   * none does, or where it cannot be held. The same value while nothing that it depends on changes.
   */
  chosenFingering(text: string): Fingering | undefined;
  /** What an exercise or a progression plays, with its fingers. The same value while nothing that it depends on changes. */
  fingered(statement: ExerciseStatement | ProgressionStatement): FingeredStatement | undefined;
  /** Every exercise, in the order of the text. */
  exercises(): readonly ExerciseStatement[];
  /** The lesson's editions, its own first. */
  editions(): readonly Scope[];
  /** The entry that a statement of this lesson is read from. */
  entryOf(statement: Named): Entry | undefined;
}

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

function newScope(lesson: Lesson, edition: Edition): Scope {
  const { definitions, settings } = lesson;
  const block = edition.block?.statement;
  const firstOf = <S>(list: readonly { readonly statement: S }[] | undefined): S | undefined => list?.[0]?.statement;
  const exercises = definitions.exercises.map(({ statement }) => statement);
  let editions: readonly Scope[] | undefined;
  const scope: Scope = {
    edition: () => edition,
    ownInstrument: () => settings.instrument,
    chord: (text) =>
      block?.chords.find(({ chord }) => chord?.text === text) ??
      firstOf(definitions.chords.get(text)) ??
      firstOf(definitions.chordsByName.get(text)),
    progression: (name) => firstOf(definitions.progressions.get(name)),
    grid: (kind, name) =>
      block?.grids.find((grid) => grid.kind === kind && grid.name?.text === name) ??
      firstOf((kind === 'pattern' ? definitions.patterns : definitions.melodies).get(name)),
    family: (name) => firstOf(definitions.families.get(name)),
    knows: (kind, name) => tableOf(definitions, kind).has(name),
    setting: (name) => (name === 'instrument' ? (edition.instrument as Settings[typeof name]) : settings[name]),
    names: (kind) => namesOf(lesson, kind).join('\n'),
    neighbour: (text, side) => neighbourIn(progressionsOf(definitions), text, side),
    chosenFingering: (text) => chosenFor(scope, text, firstWith(progressionsOf(definitions), text)),
    fingered: (statement) => fingeredOn(scope, statement),
    exercises: () => exercises,
    editions: () => {
      editions ??= lesson.editions.map((other) => scopeOf(lesson, other));
      return editions;
    },
    entryOf: (statement) => entryOf(lesson, edition, statement),
  };
  return scope;
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

function entryOf(lesson: Lesson, edition: Edition, statement: Named): Entry | undefined {
  if (statement.kind === 'exercise') {
    return lesson.definitions.exercises.find((definition) => definition.statement === statement)?.entry;
  }
  const name = statement.kind === 'chord' ? statement.chord?.text : statement.name?.text;
  if (name === undefined) return undefined;
  const list = tableOf(lesson.definitions, statement.kind).get(name) ?? [];
  // What is not the lesson's own stands in the edition's block.
  return list.find((definition) => definition.statement === statement)?.entry ?? edition.block?.entry;
}
