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
  const get = <K extends Statement['kind']>(kind: K): Extract<Statement, { kind: K }> | undefined =>
    first.get(kind) as Extract<Statement, { kind: K }> | undefined;
  const text = (kind: 'lesson' | 'by' | 'dated'): string | undefined => {
    const statement = first.get(kind);
    return statement !== undefined && 'value' in statement ? statement.value?.text : undefined;
  };
  const given = {
    title: text('lesson'),
    by: text('by'),
    dated: text('dated'),
    key: get('key')?.key,
    tempo: get('tempo')?.tempo,
    level: get('level')?.level,
  };
  return {
    ...(Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)) as Partial<Settings>),
    instrument: get('for')?.instrument ?? USUAL_INSTRUMENT,
    meter: get('meter')?.meter ?? COMMON_TIME,
    feel: get('feel')?.feel ?? STRAIGHT,
    hand: get('hand')?.hand ?? USUAL_HAND,
    chordStyle: document.chordStyle,
  };
}

function usualInstrument(name: string): Instrument {
  const parsed = parseInstrument(name);
  if (!parsed.ok) throw new Error(`The table of instruments has no ${name}.`);
  return parsed.value;
}
