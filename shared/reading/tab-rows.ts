import type { GridBar, GridColumn } from './grid-columns.ts';
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

/** In each column the strings that the next sound of their row goes on from: these stand last in their cell. */
export type GoingOn = ReadonlyMap<GridColumn, ReadonlySet<number>>;

export function goingOn(lines: readonly (readonly GridBar[])[], voices: Voices): GoingOn {
  const found = new Map<GridColumn, Set<number>>();
  const last = new Map<number, GridColumn>();
  for (const column of lines.flatMap((bars) => bars.flatMap((bar) => bar.columns))) {
    for (const { string, sound } of notesOf(column.marks)) {
      const before = last.get(voices.get(string) ?? 1);
      if (sound.kind === 'linked' && before !== undefined) {
        found.set(before, new Set([...(found.get(before) ?? []), string]));
      }
    }
    for (const { string } of notesOf(column.marks)) last.set(voices.get(string) ?? 1, column);
  }
  return found;
}

/** The rows of a line of music. A melody's notes are a `tune`, a pattern's are picked. */
export function rowsOf(bars: readonly GridBar[], { voices, goesOn, kind, strings }: RowWish): readonly Row[] {
  const columns = bars.flatMap((bar) => bar.columns);
  const row = kind === 'melody' ? 'tune' : 'pick';
  const numbers = [...new Set([1, ...voices.values()])].sort((one, other) => one - other);
  const rows = numbers.flatMap((voice) => {
    const own = columns.map((column) => ({
      column,
      notes: notesOf(column.marks).filter(({ string }) => (voices.get(string) ?? 1) === voice),
    }));
    if (own.every(({ notes }) => notes.length === 0)) return [];
    const cells = own.map(({ column, notes }) => (notes.length === 0 ? '.' : noteCell(notes, goesOn.get(column))));
    return [{ label: voice === 1 ? row : `${row} ${voice}`, cells }];
  });
  const dead = columns.map(({ marks }) => deadStrings(marks));
  const strum = dead.some((stroke) => stroke.length > 0)
    ? [{ label: 'strum', cells: dead.map((stroke) => strokeCell(stroke, strings)) }]
    : [];
  const all = [...rows, ...strum];
  return all.length === 0 ? [{ label: row, cells: columns.map(() => '.') }] : all;
}

interface RowWish {
  readonly voices: Voices;
  readonly goesOn: GoingOn;
  readonly kind: 'melody' | 'pattern';
  /** How many strings the tab has. */
  readonly strings: number;
}

const NONE: ReadonlySet<number> = new Set();

function noteCell(marks: readonly TabMark[], last: ReadonlySet<number> = NONE): string {
  const ordered = [...marks].sort(
    (one, other) => Number(last.has(one.string)) - Number(last.has(other.string)) || other.string - one.string,
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
