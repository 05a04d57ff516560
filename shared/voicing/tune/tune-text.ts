import { printShape } from '../../neck/shape.ts';
import type { BarSigns, ChordInHand, TuneBar, TuneGround } from './ground.ts';
import { type CountColumn, countColumns } from './rhythm.ts';
import type { TuneNote } from './tune.ts';

/** The chords with the fingers that the tune counts on, a line each as a lesson has them. */
export function printChords(chords: readonly ChordInHand[]): string {
  const table = chords.map(({ chord, held }) => {
    const fingers = held.fingering.fingers.map((finger) => finger ?? 0).join('-');
    return [
      chord.name,
      printShape(chord.shape),
      ...(held.fingering.presses.length === 0 ? [] : [`fingers ${fingers}`]),
    ];
  });
  return aligned(table)
    .map((line) => `chord  ${line}\n`)
    .join('');
}

/** Bars on one line of music, where a tune is written bar after bar. */
const BARS_OF_LINE = 2;

/**
 * The tune as a lesson has it: a `melody` with a count, a row for each chord and the fingers of each row below it. Where a chord has
 * another tune when it comes again, or shares its bar, the tune is written out bar after bar, whatever the chord. With `strums` each
 * chord is struck once where it is taken, for who wants to hear the tune over it. Ends with a line break.
 */
export function printTune(
  name: string,
  { meter, bars, ring = [] }: Pick<TuneGround, 'meter' | 'bars' | 'ring'>,
  notes: readonly TuneNote[],
  { strums = false }: { readonly strums?: boolean } = {},
): string {
  const struck = bars.map((bar, at) => (strums ? ticksOfChords(bar, bars[at - 1]) : []));
  const columns = countColumns(meter, [...notes.map(({ tick }) => tick), ...struck.flat()]);
  const notesOfBars = bars.map((_, bar) => notes.filter((note) => note.bar === bar));
  const table = rowsOfChords(columns, bars, notesOfBars, strums) ?? rowsOfBars(columns, bars, notesOfBars, struck);
  const rings = ring.length === 0 ? [] : [`  ring  ${[...ring].sort((a, b) => a - b).join(' ')}`];
  return `${[`melody  ${name}`, ...rings, ...aligned(table).map((line) => `  ${line}`)].join('\n')}\n`;
}

/** Where the chords of a bar are taken; one that goes on from the bar before is struck again with the bar. */
function ticksOfChords({ chords }: TuneBar, before: TuneBar | undefined): readonly number[] {
  const held = [before?.chords.at(-1), ...chords];
  return chords.flatMap(({ tick, chord }, at) => (tick === 0 || chord.name !== held[at]?.chord.name ? [tick] : []));
}

type Table = readonly (readonly string[])[];

/** One row for each chord, where it has bars of its own and the same notes in all of them; nothing otherwise. */
function rowsOfChords(
  columns: readonly CountColumn[],
  bars: TuneGround['bars'],
  notesOfBars: readonly (readonly TuneNote[])[],
  strums: boolean,
): Table | undefined {
  const rows = new Map<string, Table>();
  for (const [bar, { chords }] of bars.entries()) {
    const [only, ...others] = chords;
    if (only === undefined || others.length > 0) return undefined;
    const { name } = only.chord;
    const notes = notesOfBars[bar] ?? [];
    const fingers = notes.length === 0 ? [] : [['fingers', ...fingersIn(columns, notes)]];
    const row = [[name, ...placesIn(columns, notes)], ...fingers];
    const known = rows.get(name);
    if (known !== undefined && known.flat().join(' ') !== row.flat().join(' ')) return undefined;
    rows.set(name, row);
  }
  const strokes = strums ? [['strum', ...strokesAt(columns, [0])]] : [];
  return [['count', ...columns.map(({ word }) => word)], ...[...rows.values()].flat(), ...strokes];
}

function rowsOfBars(
  columns: readonly CountColumn[],
  barsOf: TuneGround['bars'],
  notesOfBars: readonly (readonly TuneNote[])[],
  struck: readonly (readonly number[])[],
): Table {
  const lines: string[][] = [];
  const words = columns.map(({ word }) => word);
  // Repeats and endings stand in the count, and the other rows follow it without bar lines.
  const hasSigns = barsOf.some(({ signs }) => signs !== undefined);
  for (let from = 0; from < notesOfBars.length; from += BARS_OF_LINE) {
    const bars = notesOfBars.slice(from, from + BARS_OF_LINE);
    const strokes = struck.slice(from, from + BARS_OF_LINE);
    const joined = (cells: (notes: readonly TuneNote[], at: number) => readonly string[]) =>
      bars.flatMap((notes, at) => (at === 0 || hasSigns ? cells(notes, at) : ['|', ...cells(notes, at)]));
    const signed = barsOf
      .slice(from, from + BARS_OF_LINE)
      .flatMap(({ signs }, at) => signedCount(words, signs, at === 0));
    lines.push(['count', ...(hasSigns ? signed : joined(() => words))]);
    lines.push(['tune', ...joined((notes) => placesIn(columns, notes))]);
    lines.push(['fingers', ...joined((notes) => fingersIn(columns, notes))]);
    if (strokes.flat().length > 0) {
      lines.push(['strum', ...joined((_, at) => strokesAt(columns, strokes[at] ?? []))]);
    }
  }
  return lines;
}

const ORDINALS = ['1st', '2nd', '3rd'];

function signedCount(words: readonly string[], signs: BarSigns | undefined, isFirst: boolean): readonly string[] {
  const ending = signs?.ending?.map((number) => ORDINALS[number - 1] ?? `${number}th`).join('+');
  return [
    ...(signs?.opens === true ? ['|:'] : []),
    // An ending stands behind a bar line, also at the head of a line.
    ...(ending === undefined ? [] : isFirst && signs?.opens !== true ? ['|', ending] : [ending]),
    ...words,
    signs?.closes ?? '|',
  ];
}

function placesIn(columns: readonly CountColumn[], notes: readonly TuneNote[]): readonly string[] {
  return cellsIn(columns, notes, ({ string, fret }) => `${string}:${fret}`);
}

function fingersIn(columns: readonly CountColumn[], notes: readonly TuneNote[]): readonly string[] {
  return cellsIn(columns, notes, ({ way }) => String(way.finger ?? 0));
}

/** Strokes that spread slowly, so that each string is heard. */
function strokesAt(columns: readonly CountColumn[], ticks: readonly number[]): readonly string[] {
  return columns.map(({ tick }) => (ticks.includes(tick) ? 'D~' : '.'));
}

function cellsIn(
  columns: readonly CountColumn[],
  notes: readonly TuneNote[],
  cell: (note: TuneNote) => string,
): readonly string[] {
  return columns.map(({ tick }) => {
    const note = notes.find((one) => one.tick === tick);
    return note === undefined ? '.' : cell(note);
  });
}

function aligned(table: Table): readonly string[] {
  const widths: number[] = [];
  for (const row of table) {
    for (const [at, word] of row.entries()) widths[at] = Math.max(widths[at] ?? 0, word.length);
  }
  return table.map((row) =>
    row
      .map((word, at) => word.padEnd(widths[at] ?? 0))
      .join('  ')
      .trimEnd(),
  );
}
