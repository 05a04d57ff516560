import type { Instrument } from '../../neck/instrument.ts';
import { firstStringMovesBy, namesMoveBy } from '../../neck/tuning-distance.ts';
import type { Key } from '../../theory/key.ts';
import { keyMovedBy } from '../../theory/moved-key.ts';
import type { LessonDocument } from '../document.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type {
  AlsoStatement,
  ChordStatement,
  EditionStatement,
  ExerciseStatement,
  FamilyStatement,
  GridStatement,
  ProgressionStatement,
  Statement,
} from '../syntax/statement.ts';
import { capoAt } from './capo-at.ts';
import { type Settings, settingsOf } from './settings.ts';

/** A statement and the entry it is read from. The entry stays the same while lines above it come and go. */
export interface Definition<S extends Statement> {
  readonly entry: Entry;
  readonly statement: S;
}

/** One form of the lesson: its own instrument, or one that `also` names. */
export interface Edition {
  /** What `edition` blocks and the reader's choice call it. */
  readonly name: string;
  readonly instrument: Instrument;
  /** Whether shapes are the lesson's own, the same frets on another instrument, or new ones for the same names. */
  readonly keeps: 'own' | 'shapes' | 'key';
  /** The key of the shapes in the hand, as they are called on this instrument; absent where the lesson gives none. */
  readonly key?: Key;
  readonly also?: Definition<AlsoStatement>;
  readonly block?: Definition<EditionStatement>;
}

/** Every name that an entry may use, first definition first. */
export interface Definitions {
  /** By name and label as written: `Em.high`. */
  readonly chords: ReadonlyMap<string, readonly Definition<ChordStatement>[]>;
  /** The chord that a plain name means: the plain one, or the first labelled one. */
  readonly chordsByName: ReadonlyMap<string, readonly Definition<ChordStatement>[]>;
  readonly progressions: ReadonlyMap<string, readonly Definition<ProgressionStatement>[]>;
  readonly patterns: ReadonlyMap<string, readonly Definition<GridStatement>[]>;
  readonly melodies: ReadonlyMap<string, readonly Definition<GridStatement>[]>;
  readonly families: ReadonlyMap<string, readonly Definition<FamilyStatement>[]>;
  readonly exercises: readonly Definition<ExerciseStatement>[];
  /** Words that lines which cannot be read may have been meant to define. */
  readonly unread: ReadonlySet<string>;
}

/** What the whole document says, before any single exercise is looked at. */
export interface Lesson {
  readonly document: LessonDocument;
  readonly settings: Settings;
  readonly definitions: Definitions;
  /** The lesson's own form first. */
  readonly editions: readonly [Edition, ...Edition[]];
}

const bound = new WeakMap<LessonDocument, Lesson>();

/** What names mean, by what stands for all that documents have in common. */
const commonly = new WeakMap<object, Omit<Lesson, 'document'>>();

/**
 * Binds a document's names. One pass over the entries; kept with the document, which never changes, and for all documents that have
 * the same to bind: their definitions and editions are the same values.
 */
export function lessonOf(document: LessonDocument): Lesson {
  const known = bound.get(document);
  if (known !== undefined) return known;
  const meanings = commonly.get(document.common) ?? meaningsOf(document);
  commonly.set(document.common, meanings);
  const lesson: Lesson = { document, ...meanings };
  bound.set(document, lesson);
  return lesson;
}

function meaningsOf(document: LessonDocument): Omit<Lesson, 'document'> {
  const settings = settingsOf(document);
  return { settings, definitions: definitionsOf(document), editions: editionsOf(document, settings) };
}

function definitionsOf(document: LessonDocument): Definitions {
  const chords = new Map<string, Definition<ChordStatement>[]>();
  const chordsByName = new Map<string, Definition<ChordStatement>[]>();
  const progressions = new Map<string, Definition<ProgressionStatement>[]>();
  const patterns = new Map<string, Definition<GridStatement>[]>();
  const melodies = new Map<string, Definition<GridStatement>[]>();
  const families = new Map<string, Definition<FamilyStatement>[]>();
  const exercises: Definition<ExerciseStatement>[] = [];
  const unread = new Set<string>();
  document.entries.forEach((entry) => {
    const { statement } = entry;
    switch (statement.kind) {
      case 'chord':
        if (statement.chord !== undefined) {
          addTo(chords, statement.chord.text, { entry, statement });
          addTo(chordsByName, statement.chord.name, { entry, statement });
        }
        break;
      case 'progression':
        if (statement.name !== undefined) addTo(progressions, statement.name.text, { entry, statement });
        break;
      case 'pattern':
      case 'melody':
        if (statement.name !== undefined) {
          addTo(statement.kind === 'pattern' ? patterns : melodies, statement.name.text, { entry, statement });
        }
        break;
      case 'family':
        if (statement.name !== undefined) addTo(families, statement.name.text, { entry, statement });
        break;
      case 'exercise':
        exercises.push({ entry, statement });
        break;
      case 'unknown':
        // `verse | C | F |` has lost the word in front, and the name is first.
        unread.add(statement.keyword.text).add(statement.name?.text ?? '');
        break;
      default:
    }
  });
  return { chords, chordsByName, progressions, patterns, melodies, families, exercises, unread };
}

function addTo<T>(table: Map<string, T[]>, name: string, value: T): void {
  const known = table.get(name);
  if (known === undefined) table.set(name, [value]);
  else known.push(value);
}

function editionsOf(document: LessonDocument, settings: Settings): readonly [Edition, ...Edition[]] {
  const blocks = new Map<string, Definition<EditionStatement>>();
  const also: Definition<AlsoStatement>[] = [];
  document.entries.forEach((entry) => {
    const { statement } = entry;
    if (statement.kind === 'edition' && statement.name !== undefined)
      blocks.set(statement.name.text, { entry, statement });
    if (statement.kind === 'also') also.push({ entry, statement });
  });
  const { key } = settings;
  const own: Edition = {
    name: settings.instrument.name,
    instrument: settings.instrument,
    keeps: 'own',
    ...(key === undefined ? {} : { key }),
  };
  const further = also.flatMap((definition): Edition[] => {
    const { instrument, called, value, keeps } = definition.statement;
    if (instrument === undefined) return [];
    const name = called?.text ?? instrument.name;
    const block = blocks.get(name) ?? blocks.get(value?.text ?? name) ?? blocks.get(instrument.kind);
    return [
      {
        name,
        instrument: withCapoOf(block?.statement, instrument),
        keeps,
        ...(key === undefined ? {} : { key: keeps === 'shapes' ? keyOn(settings.instrument, instrument, key) : key }),
        also: definition,
        ...(block === undefined ? {} : { block }),
      },
    ];
  });
  return [own, ...further];
}

/** The key in which the same shapes sound on the other instrument without a capo. */
function keyOn(own: Instrument, other: Instrument, key: Key): Key {
  return keyMovedBy(key, namesMoveBy(own, other) ?? firstStringMovesBy(own, other));
}

/** The instrument with the capo that the edition's block gives. */
function withCapoOf(block: EditionStatement | undefined, instrument: Instrument): Instrument {
  const fret = block?.capo?.fret;
  // A capo that leaves no fret cannot be put on.
  return fret === undefined || fret >= instrument.frets ? instrument : capoAt(instrument, fret);
}
