import type { LessonDocument } from '../document.ts';

/** What a check says of an instrument, by the code or by all of its first word. */
const OF_INSTRUMENT: ReadonlySet<string> = new Set([
  'capo',
  'change.too-quick',
  'chord.added-tone',
  'chord.assumed',
  'chord.bass',
  'chord.incomplete',
  'chord.name',
  'chord.no-shape',
  'edition.bass-elsewhere',
  'edition.hard-to-hold',
  'edition.other-strings',
  'fingers',
  'keep.breaks',
  'keep.other-chord',
  'level.differs',
  'mark.fret-beyond-neck',
  'mark.no-string',
  'pattern.muted-string',
  'pattern.no-bass',
  'reach',
  'ring.no-string',
  'ring.stopped',
  'shape',
  'technique.open-string',
  'technique.slide-from-open',
  'tune',
  'within.beyond-neck',
]);

/**
 * Whether nobody knows which instrument the lesson is for: its line says something that cannot be read, and nothing like it is known.
 * What the usual instrument would make of the frets is then nothing to tell.
 */
export function isInstrumentUnread({ entries }: LessonDocument): boolean {
  const line = entries.find(({ statement }) => statement.kind === 'for')?.statement;
  if (line?.kind !== 'for' || line.value === undefined) return false;
  return line.instrument === undefined && line.guess === undefined;
}

/** True for what a check found that another instrument may not have; faults that the line shows by itself are none of these. */
export function isOfInstrument(code: string): boolean {
  return OF_INSTRUMENT.has(code) || OF_INSTRUMENT.has(code.split('.')[0] ?? '');
}
