import { COMMON_TIME } from '../theory/meter.ts';
import type { RhythmWish } from './passage.ts';
import { type ReadingWish, readText, type TextReading } from './read-text.ts';
import { parseRhythmWish } from './rhythm-wish.ts';

/** A way to read a text, to be chosen by its first line of music. */
export interface OfferedReading {
  readonly label: string;
  readonly preview: string;
  readonly reading: TextReading;
}

/** The ways in which the rhythm of a tab may be read that does not say it, likeliest first. */
const WAYS: readonly { readonly label: string; readonly rhythm: RhythmWish }[] = [
  { label: 'Distances on the line are time', rhythm: { kind: 'columns' } },
  { label: 'All notes are equally long', rhythm: { kind: 'equal' } },
];

/** The readings of a text: one where it says its rhythm or one is wished, else one for each way; none where nothing is understood. */
export function readingsOf(text: string, wish: ReadingWish): readonly OfferedReading[] {
  const first = readText(text, wish);
  if (first.blocks.length === 0) return [];
  if (wish.rhythm !== undefined || !first.rhythmIsGuess) {
    return [{ label: 'As the text has it', preview: previewOf(first), reading: first }];
  }
  return WAYS.map(({ label, rhythm }) => {
    const reading = readText(text, { ...wish, rhythm });
    return { label, preview: previewOf(reading), reading };
  });
}

/** A reading on a count that a teacher may begin with: eighths in simple meters, every count in others. */
export function countedReading(text: string, wish: ReadingWish): OfferedReading & { readonly count: string } {
  const meter = wish.meter ?? COMMON_TIME;
  const between = meter.unit >= 8 ? '' : ' &';
  const count = Array.from({ length: meter.counts }, (_, at) => `${at + 1}${between}`).join(' ');
  const parsed = parseRhythmWish(count, meter);
  const reading = readText(text, parsed.ok ? { ...wish, rhythm: parsed.value } : wish);
  return { count, label: 'Notes on a count that you give', preview: previewOf(reading), reading };
}

/** The first notes with their counts, or the first line of chords: `1 2:0, 2 1:0`. */
function previewOf({ text }: TextReading): string {
  const rows = text.split('\n').map((line) => line.trim());
  const count = rows.find((line) => line.startsWith('count  '))?.split(/\s+/) ?? [];
  const notes = rows.find((line) => /^(?:tune|pick|strum)\s/.test(line))?.split(/\s+/) ?? [];
  if (notes.length === 0) return rows.find((line) => line.startsWith('|')) ?? '';
  const said = count.slice(1).filter((word) => !/^(?::?\|{1,2}:?|x\d+)$/.test(word));
  const marks = notes.slice(1).filter((word) => !/^:?\|{1,2}:?$/.test(word));
  const offset = marks.length - said.length;
  const sounding = said.flatMap((word, index) => {
    const mark = marks[index + offset] ?? '.';
    return mark === '.' ? [] : [`${word} → ${mark}`];
  });
  return sounding.slice(0, 8).join('   ');
}
