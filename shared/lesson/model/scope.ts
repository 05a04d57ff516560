import type { SequenceDifficulty } from '../../hand/difficulty-of-sequence.ts';
import type { Fingering } from '../../hand/fingering.ts';
import type { Instrument } from '../../neck/instrument.ts';
import type { Shape } from '../../neck/shape.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type {
  ChordStatement,
  ExerciseStatement,
  FamilyStatement,
  GridStatement,
  ProgressionStatement,
} from '../syntax/statement.ts';
import type { FingeredStatement } from './fingered-statement.ts';
import type { Edition } from './lesson.ts';
import type { Side } from './neighbours.ts';
import type { ResolvedChord } from './resolved-chord.ts';
import type { Settings } from './settings.ts';
import type { TimedGrid } from './timed-grid.ts';

export type NameKind = 'chord' | 'progression' | 'pattern' | 'melody' | 'family';

export type Named = ChordStatement | ProgressionStatement | GridStatement | FamilyStatement | ExerciseStatement;

/** The questions that an entry may ask about the rest of its lesson, on one edition. */
export interface Scope {
  /**
   * Stands for all answers of this scope: who knows them needs not ask again. Absent where somebody listens to what is asked, or where
   * some answers are other than the lesson's.
   */
  readonly version?: number;
  edition(): Edition;
  /** The instrument that the lesson itself is for, whichever edition this is. */
  ownInstrument(): Instrument;
  /** The line that gives the chord's shape; a plain name with labelled shapes only means the first of them. */
  chord(text: string): ChordStatement | undefined;
  /**
   * A chord by its text, name and label, as it is held on this edition: the answer of `resolveChord`. The same value while nothing that
   * it depends on changes.
   */
  resolved(text: string): ResolvedChord | undefined;
  progression(name: string): ProgressionStatement | undefined;
  grid(kind: 'pattern' | 'melody', name: string): GridStatement | undefined;
  family(name: string): FamilyStatement | undefined;
  /** Whether the lesson defines the name at all: an answer that stays the same while what it names is being edited. */
  knows(kind: NameKind, name: string): boolean;
  /** Whether a line that cannot be read may have been meant to define the name: it is told there, and not again where it is used. */
  isUnread(name: string): boolean;
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
  /** The grid with every mark at its time; nothing where it has no column. The same value while nothing that it depends on changes. */
  timed(statement: GridStatement): TimedGrid | undefined;
  /**
   * On an edition in the same key, the shape that is found there for a chord of the lesson, as written. The same value while nothing
   * that it depends on changes.
   */
  movedShape(text: string): Shape | undefined;
  /** What an exercise or a progression plays, with its fingers. The same value while nothing that it depends on changes. */
  fingered(statement: ExerciseStatement | ProgressionStatement): FingeredStatement | undefined;
  /**
   * How hard all that the lesson plays is, as `lessonDifficulty` says. The same value while nothing that it depends on changes: one
   * answer in place of the fingers of every exercise.
   */
  difficulty(): SequenceDifficulty | undefined;
  /** The first exercise, in the order of the text, that names the pattern or melody. */
  firstPlayedIn(name: string): ExerciseStatement | undefined;
  /** Every exercise, in the order of the text. */
  exercises(): readonly ExerciseStatement[];
  /** The lesson's editions, its own first. */
  editions(): readonly Scope[];
  /** The entry that a statement of this lesson is read from. */
  entryOf(statement: Named): Entry | undefined;
}
