import type { GridBar } from './grid-columns.ts';
import type { TabMark } from './tab-marks.ts';

/** A row of a grid: its label, and for every column of the line a word. */
export interface Row {
  readonly label: string;
  readonly cells: readonly string[];
}

/** Which strings have a voice of their own. A technique in a column of its own goes on from the note before it in its row alone. */
export type Voices = ReadonlyMap<number, number>;

/**
 * The voices of a piece: one for all strings, and one for each string on which something is hammered, pulled or slid to in the same
 * moment as another string is struck, or after it.
 */
export function voicesOf(lines: readonly (readonly GridBar[])[]): Voices {
  const columns = lines.flatMap((bars) => bars.flatMap((bar) => bar.columns)).filter(({ marks }) => marks.length > 0);
  const apart = new Set<number>();
  for (let before = -1; before < apart.size; ) {
    before = apart.size;
    let last: readonly TabMark[] = [];
    for (const { marks } of columns) {
      const together = notesOf(marks).filter(({ string }) => !apart.has(string));
      const linked = together.filter(({ sound }) => sound.kind === 'linked');
      for (const { string } of linked) {
        if (together.length > 1 || !last.some((mark) => mark.string === string)) apart.add(string);
      }
      if (together.length > 0) last = together;
    }
  }
  const strings = new Set(columns.flatMap(({ marks }) => notesOf(marks).map(({ string }) => string)));
  const shared = [...strings].some((string) => !apart.has(string)) ? 1 : 0;
  return new Map([...apart].sort((a, b) => a - b).map((string, index) => [string, index + 1 + shared] as const));
}

function notesOf(marks: readonly TabMark[]): readonly TabMark[] {
  return marks.filter(({ sound }) => sound.kind !== 'dead');
}

/** The rows of a line of music. A melody's notes are a `tune`, a pattern's are picked. */
export function rowsOf(
  bars: readonly GridBar[],
  voices: Voices,
  kind: 'melody' | 'pattern',
  strings: number,
): readonly Row[] {
  const columns = bars.flatMap((bar) => bar.columns);
  const numbers = [...new Set([1, ...voices.values()])].sort((one, other) => one - other);
  const rows = numbers.flatMap((voice) => {
    const own = columns.map(({ marks }) => notesOf(marks).filter(({ string }) => (voices.get(string) ?? 1) === voice));
    if (own.every((marks) => marks.length === 0)) return [];
    const cells = own.map((marks, index) => (marks.length === 0 ? '.' : noteCell(marks, nextLinked(own, index))));
    const row = kind === 'melody' ? 'tune' : 'pick';
    return [{ label: voice === 1 ? row : `${row} ${voice}`, cells }];
  });
  const dead = columns.map(({ marks }) => deadStrings(marks));
  const strum = dead.some((stroke) => stroke.length > 0)
    ? [{ label: 'strum', cells: dead.map((stroke) => strokeCell(stroke, strings)) }]
    : [];
  const all = [...rows, ...strum];
  const empty = { label: kind === 'melody' ? 'tune' : 'pick', cells: columns.map(() => '.') };
  return all.length === 0 ? [empty] : all;
}

/** The string that the next sound of the row goes on from: it must be the last of its cell. */
function nextLinked(cells: readonly (readonly TabMark[])[], index: number): number | undefined {
  let next = index + 1;
  while (next < cells.length && cells[next]?.length === 0) next += 1;
  const [mark] = cells[next] ?? [];
  return mark?.sound.kind === 'linked' ? mark.string : undefined;
}

function noteCell(marks: readonly TabMark[], last: number | undefined): string {
  const ordered = [...marks].sort(
    (one, other) => Number(one.string === last) - Number(other.string === last) || other.string - one.string,
  );
  return ordered.map(noteText).join('+');
}

function noteText({ string, sound, signs }: TabMark): string {
  switch (sound.kind) {
    case 'struck':
      return `${string}:${sound.fret}${signs.join('')}`;
    case 'linked':
      return `${sound.by}${sound.fret}`;
    case 'plucked':
      return `${string}${sound.finger}`;
    case 'dead':
      return '.';
  }
}

function deadStrings(marks: readonly TabMark[]): readonly number[] {
  return marks.filter(({ sound }) => sound.kind === 'dead').map(({ string }) => string);
}

/** `Dx` over all strings, `D43x` over some. A stroke goes over neighbours, so strings between are damped with them. */
function strokeCell(dead: readonly number[], strings: number): string {
  if (dead.length === 0) return '.';
  const high = Math.max(...dead);
  const low = Math.min(...dead);
  if (low === 1 && high === strings) return 'Dx';
  return high === low ? `D${high}x` : `D${high}${low}x`;
}
