import type { HandSize } from '../../hand/hand.ts';
import type { Instrument } from '../../neck/instrument.ts';
import type { Shape } from '../../neck/shape.ts';
import type { Span } from '../../text/span.ts';
import type { Key } from '../../theory/key.ts';
import type { Meter } from '../../theory/meter.ts';
import type { Cell } from './marks.ts';
import type { ChordName, Feel, ListMember, MeterChange, Tempo, Word } from './words.ts';

// What the lines of an entry say, read without knowing any other entry. Spans are counted from the start of the entry.
// Whatever a half-typed line can lack is optional here; what was faulty is told in the entry's problems.

/** Prose as written behind `>`, one paragraph of lines, with the places that may be mentions. */
export interface Prose {
  readonly span: Span;
  readonly lines: readonly Word[];
  /** `@Em`: the word behind the sign, as far as it could reach. The longest known name in it wins. */
  readonly mentions: readonly Word[];
}

export interface TitleStatement extends Headed {
  readonly kind: 'lesson' | 'by' | 'dated' | 'part';
  readonly value?: Word;
}
export interface InstrumentStatement extends Headed {
  readonly kind: 'for';
  readonly value?: Word;
  readonly instrument?: Instrument;
  /** Where the instrument cannot be read: the one that was probably meant, so that the rest of the lesson is not told wrong for it. */
  readonly guess?: Instrument;
}
export interface AlsoStatement extends Headed {
  readonly kind: 'also';
  readonly value?: Word;
  readonly instrument?: Instrument;
  readonly keeps: 'shapes' | 'key';
  /** The words that say so. */
  readonly keepsWord?: Word;
  readonly called?: Word;
}
export interface KeyStatement extends Headed {
  readonly kind: 'key';
  readonly value?: Word;
  readonly key?: Key;
}
export interface MeterStatement extends Headed {
  readonly kind: 'meter';
  readonly value?: Word;
  readonly meter?: Meter;
}
export interface FeelStatement extends Headed {
  readonly kind: 'feel';
  readonly value?: Word;
  readonly feel?: Feel;
}
export interface TempoStatement extends Headed {
  readonly kind: 'tempo';
  readonly value?: Word;
  readonly tempo?: Tempo;
}
export interface LevelStatement extends Headed {
  readonly kind: 'level';
  readonly value?: Word;
  readonly level?: number;
}
export interface HandStatement extends Headed {
  readonly kind: 'hand';
  readonly value?: Word;
  readonly hand?: HandSize;
}
/** In which language the teacher writes. */
export interface LanguageStatement extends Headed {
  readonly kind: 'language';
  readonly value?: Word;
  /** Its tag. Source: BCP 47. */
  readonly language?: string;
}
/** `corrected bar 7 of Plucked: was F, is G7`, kept as written and printed. */
export interface CorrectedStatement extends Headed {
  readonly kind: 'corrected';
  readonly value?: Word;
}
export interface PageStatement extends Headed {
  readonly kind: 'page';
}
export interface ShowStatement extends Headed {
  readonly kind: 'show';
  readonly names: readonly ListMember[];
}

/** `chord G as A 2-2-2-0 fingers 1-1-1-0` */
export interface ChordStatement extends Headed {
  readonly kind: 'chord';
  readonly chord?: ChordName;
  /** Only in an edition block: the name that the chord has there. */
  readonly as?: ChordName;
  readonly shape?: Shape;
  /** The frets as written. */
  readonly frets?: Word;
  /** Where each string's fret stands, in chart order. */
  readonly fretSpans: readonly Span[];
  /** Fingers in chart order, 0 for an open or muted string. */
  readonly fingers?: readonly (number | 'T')[];
  readonly fingersWord?: Word;
}

export type BarSignText = '|' | '||' | '|:' | ':|' | ':|:';
export interface BarSign {
  readonly text: BarSignText;
  readonly span: Span;
}
export interface Ending {
  readonly numbers: readonly number[];
  readonly span: Span;
}
export type BarItem =
  | { readonly kind: 'chord'; readonly chord: ChordName; readonly span: Span }
  | { readonly kind: 'beat' | 'silence' | 'same'; readonly span: Span };

export interface WrittenBar {
  readonly span: Span;
  readonly opens?: BarSign;
  readonly closes?: BarSign;
  /** `:| x3`: three times in all. */
  readonly times?: number;
  readonly ending?: Ending;
  readonly meter?: MeterChange;
  readonly items: readonly BarItem[];
}
/** Syllables under a line of bars, shared out by its bars; `-` inside a word was split. */
export interface WordsRow {
  readonly verse: number;
  readonly span: Span;
  readonly bars: readonly (readonly Word[])[];
}
export interface BarsLine {
  readonly span: Span;
  readonly bars: readonly WrittenBar[];
  readonly words: readonly WordsRow[];
}
export interface ProgressionStatement extends Headed {
  readonly kind: 'progression';
  readonly name?: Word;
  /** The pickup's count: `count 4` starts the music on the fourth count. */
  readonly pickupCount?: { readonly count: number; readonly span: Span };
  readonly lines: readonly BarsLine[];
  readonly prose: readonly Prose[];
}

/** What is said aloud for one column, and how it splits its counts. */
export interface CountWord {
  readonly word: Word;
  /** The counts that start here, from the first to the last it spans; absent for the syllables between numbers. */
  readonly counts?: readonly [number, number];
}
export interface CountSign {
  readonly sign: BarSign;
  /** The column in front of which the sign stands. */
  readonly column: number;
  readonly times?: number;
  readonly ending?: Ending;
}
export interface CountRow {
  readonly span: Span;
  readonly keyword: Word;
  readonly columns: readonly CountWord[];
  readonly signs: readonly CountSign[];
  /** Other meters, each at the head of the bar where it begins, in front of this column. */
  readonly meters: readonly { readonly meter: MeterChange; readonly column: number }[];
}
export type RowKind = 'pick' | 'strum' | 'hit' | 'tune' | 'fingers' | 'chord' | 'words' | 'say';
export interface GridRow {
  readonly kind: RowKind;
  readonly span: Span;
  readonly keyword: Word;
  readonly voice: number;
  /** The chord that the row goes over: `C6  1:5 .`, `pick C  3p`. */
  readonly chord?: ChordName;
  readonly cells: readonly Cell[];
}
/** Rows that sound together, under one count. */
export interface MusicLine {
  readonly span: Span;
  readonly count?: CountRow;
  readonly rows: readonly GridRow[];
}
export type Ring =
  | { readonly kind: 'all' }
  | { readonly kind: 'none' }
  | { readonly kind: 'strings'; readonly strings: readonly number[] };
export interface RingDirective {
  readonly ring: Ring;
  readonly span: Span;
}
export type Contour = 'rise' | 'fall' | 'arch' | 'answer';

/** A pattern or a melody: both are grids; a melody may instead be a request to find one. */
export interface GridStatement extends Headed {
  readonly kind: 'pattern' | 'melody';
  readonly name?: Word;
  readonly like?: Word;
  readonly meter?: MeterChange;
  readonly ring?: RingDirective;
  /** Which string each right-hand finger rests on. */
  readonly plant?: { readonly strings: Readonly<Partial<Record<'p' | 'i' | 'm' | 'a', number>>>; readonly span: Span };
  readonly lines: readonly MusicLine[];
  /** The request: which progression, which contour. */
  readonly inside?: Word;
  readonly contour?: { readonly contour: Contour; readonly span: Span };
  readonly prose: readonly Prose[];
}

/** `at bar 4 8  roll-end`, `at 2nd  roll-end` */
export interface AtDirective {
  readonly span: Span;
  readonly bars: readonly number[];
  readonly endings: readonly number[];
  readonly members: readonly ListMember[];
}
export interface ExerciseStatement extends Headed {
  readonly kind: 'exercise';
  readonly title?: Word;
  readonly play?: Members;
  readonly over?: Members;
  /** One list a pass: the second `with` line is the second time through. */
  readonly with: readonly Members[];
  readonly each?: Members;
  readonly at: readonly AtDirective[];
  readonly restart?: { readonly at: 'chord' | 'bar'; readonly span: Span };
  readonly tempo?: { readonly tempo: Tempo; readonly span: Span };
  readonly repeat?: { readonly times: number; readonly span: Span };
  readonly minutes?: { readonly minutes: number; readonly span: Span };
  readonly aim?: Word;
  readonly meter?: MeterChange;
  readonly ring?: RingDirective;
  readonly video?: Word;
  readonly prose: readonly Prose[];
}
export interface Members {
  readonly members: readonly ListMember[];
  readonly span: Span;
}

export interface FamilyStatement extends Headed {
  readonly kind: 'family';
  readonly name?: Word;
  readonly from?: Word;
  readonly ring?: RingDirective;
  readonly within?: { readonly low: number; readonly high: number; readonly span: Span };
  readonly allow: readonly Word[];
  readonly keep: readonly { readonly chord: ChordName; readonly shape?: Shape; readonly span: Span }[];
  readonly prose: readonly Prose[];
}

/** What must differ on one edition: statements of the same kind and name replace those of the lesson. */
export interface EditionStatement extends Headed {
  readonly kind: 'edition';
  readonly name?: Word;
  readonly chords: readonly ChordStatement[];
  readonly grids: readonly GridStatement[];
  readonly capo?: { readonly fret: number; readonly span: Span };
  readonly prose: readonly Prose[];
}

export interface ProseStatement {
  readonly kind: 'prose';
  readonly span: Span;
  readonly paragraphs: readonly Prose[];
}
/** Blanks and comments before the first statement, or nothing at all. */
export interface NoStatement {
  readonly kind: 'nothing';
  readonly span: Span;
}
export interface UnknownStatement extends Headed {
  readonly kind: 'unknown';
  /** The word behind the first, which may be the name of what the line was to define: `one` in `progresion one`. */
  readonly name?: Word;
}

interface Headed {
  /** From the keyword to the end of the last line that says something. */
  readonly span: Span;
  readonly keyword: Word;
}

export type Statement =
  | TitleStatement
  | InstrumentStatement
  | AlsoStatement
  | KeyStatement
  | MeterStatement
  | FeelStatement
  | TempoStatement
  | LevelStatement
  | HandStatement
  | LanguageStatement
  | CorrectedStatement
  | PageStatement
  | ShowStatement
  | ChordStatement
  | ProgressionStatement
  | GridStatement
  | ExerciseStatement
  | FamilyStatement
  | EditionStatement
  | ProseStatement
  | NoStatement
  | UnknownStatement;
