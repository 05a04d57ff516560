import { type HandSize, USUAL_HAND } from '../../hand/hand.ts';
import type { Instrument } from '../../neck/instrument.ts';
import { parseInstrument } from '../../neck/instruments.ts';
import type { ChordStyleName } from '../../theory/chord-style.ts';
import type { Key } from '../../theory/key.ts';
import { COMMON_TIME, type Meter } from '../../theory/meter.ts';
import type { LessonDocument } from '../document.ts';
import type { Statement } from '../syntax/statement.ts';
import type { Feel, Tempo } from '../syntax/words.ts';

/** What the header says, with the usual value where it says nothing. */
export interface Settings {
  readonly title?: string;
  readonly by?: string;
  readonly dated?: string;
  readonly instrument: Instrument;
  readonly key?: Key;
  readonly meter: Meter;
  readonly feel: Feel;
  readonly tempo?: Tempo;
  readonly level?: number;
  readonly hand: HandSize;
  /** Tag of the language that the teacher writes in. Source: BCP 47. */
  readonly language?: string;
  /** How offered chord names are written; not part of the header. */
  readonly chordStyle: ChordStyleName;
}

/** What a lesson is for that does not say. Common practice, no source. */
const USUAL_INSTRUMENT = usualInstrument('tenor ukulele, high G');

const STRAIGHT: Feel = { kind: 'straight' };

/** The header of a lesson. Where a statement stands twice the first one counts; the check says so. */
export function settingsOf(document: LessonDocument): Settings {
  const first = new Map<Statement['kind'], Statement>();
  for (const { statement } of document.entries) if (!first.has(statement.kind)) first.set(statement.kind, statement);
  const get = <K extends Statement['kind']>(kind: K): StatementOf<K> | undefined => {
    const statement = first.get(kind);
    return statement !== undefined && isOf(statement, kind) ? statement : undefined;
  };
  const text = (kind: 'lesson' | 'by' | 'dated'): string | undefined => {
    const statement = first.get(kind);
    return statement !== undefined && 'value' in statement ? statement.value?.text : undefined;
  };
  const title = text('lesson');
  const by = text('by');
  const dated = text('dated');
  const key = get('key')?.key;
  const tempo = get('tempo')?.tempo;
  const level = get('level')?.level;
  const language = get('language')?.language;
  return {
    ...(title === undefined ? {} : { title }),
    ...(by === undefined ? {} : { by }),
    ...(dated === undefined ? {} : { dated }),
    ...(key === undefined ? {} : { key }),
    ...(tempo === undefined ? {} : { tempo }),
    ...(level === undefined ? {} : { level }),
    ...(language === undefined ? {} : { language }),
    instrument: get('for')?.instrument ?? get('for')?.guess ?? USUAL_INSTRUMENT,
    meter: get('meter')?.meter ?? COMMON_TIME,
    feel: get('feel')?.feel ?? STRAIGHT,
    hand: get('hand')?.hand ?? USUAL_HAND,
    chordStyle: document.chordStyle,
  };
}

type StatementOf<K extends Statement['kind']> = Extract<Statement, { readonly kind: K }>;

function isOf<K extends Statement['kind']>(statement: Statement, kind: K): statement is StatementOf<K> {
  return statement.kind === kind;
}

function usualInstrument(name: string): Instrument {
  const parsed = parseInstrument(name);
  if (!parsed.ok) throw new Error(`The table of instruments has no ${name}.`);
  return parsed.value;
}
