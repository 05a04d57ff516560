import { printShape } from '../../neck/shape.ts';
import type { ChordInHand, TuneGround } from './ground.ts';
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
    .map((line) => `chord${line}\n`)
    .join('');
}

interface Row {
  readonly label: string;
  /** One for each column. */
  readonly places: readonly string[];
  readonly fingers: readonly string[];
}

/**
 * The tune as a lesson has it: a `melody` with a count and a row for each chord, the fingers of each row below it. One count line does
 * where every chord has but one row of its own; else every bar has its own, in order. Ends with a line break.
 */
export function printTune(
  name: string,
  { meter, bars, ring = [] }: Pick<TuneGround, 'meter' | 'bars' | 'ring'>,
  notes: readonly TuneNote[],
): string {
  const columns = countColumns(
    meter,
    notes.map(({ tick }) => tick),
  );
  const rowsOfBars = bars.map(({ chords }, bar) =>
    rowsOfBar(
      columns,
      chords,
      notes.filter((note) => note.bar === bar),
    ),
  );
  const shared = sharedRows(rowsOfBars);
  const lines = shared === undefined ? rowsOfBars : [shared];
  const table = lines.flatMap((rows) => [
    ['count', ...columns.map(({ word }) => word)],
    ...rows.flatMap(({ label, places, fingers }) => [
      [label, ...places],
      ...(places.every((place) => place === '.') ? [] : [['fingers', ...fingers]]),
    ]),
  ]);
  const rings = ring.length === 0 ? [] : [`  ring  ${[...ring].sort((a, b) => a - b).join(' ')}`];
  return `${[`melody  ${name}`, ...rings, ...aligned(table)].join('\n')}\n`;
}

function rowsOfBar(
  columns: readonly CountColumn[],
  chords: TuneGround['bars'][number]['chords'],
  notes: readonly TuneNote[],
): readonly Row[] {
  const labels = [...new Set(chords.map(({ chord }) => chord.name))];
  return labels.map((label): Row => {
    const at = columns.map(({ tick }) => notes.find((note) => note.chord.name === label && note.tick === tick));
    return {
      label,
      places: at.map((note) => (note === undefined ? '.' : `${note.string}:${note.fret}`)),
      fingers: at.map((note) => (note === undefined ? '.' : String(note.way.finger ?? 0))),
    };
  });
}

/** One row for each chord, where it has the same one in all its bars; nothing where a chord needs several. */
function sharedRows(bars: readonly (readonly Row[])[]): readonly Row[] | undefined {
  const rows = new Map<string, Row>();
  for (const row of bars.flat()) {
    const known = rows.get(row.label);
    if (known !== undefined && known.places.join(' ') !== row.places.join(' ')) return undefined;
    if (known === undefined) rows.set(row.label, row);
  }
  return [...rows.values()];
}

function aligned(table: readonly (readonly string[])[]): readonly string[] {
  const widths: number[] = [];
  for (const row of table) {
    for (const [at, word] of row.entries()) widths[at] = Math.max(widths[at] ?? 0, word.length);
  }
  return table.map((row) => `  ${row.map((word, at) => word.padEnd(widths[at] ?? 0)).join('  ')}`.trimEnd());
}
