import { printShape } from '../../neck/shape.ts';
import { COMMON_TIME, type Meter, printMeter } from '../../theory/meter.ts';
import { areAlike, type BarTime, barTimes, ticksOf } from './bar-times.ts';
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
 * another tune when it comes again, or shares its bar, where bars are not alike, and where the tune rests without a chord, it is
 * written out bar after bar, whatever the chord. With `strums` each chord is struck once where it is taken, for who wants to hear the
 * tune over it. Ends with a line break.
 */
export function printTune(
  name: string,
  ground: Pick<TuneGround, 'meter' | 'bars' | 'ring'>,
  notes: readonly TuneNote[],
  { strums = false }: { readonly strums?: boolean } = {},
): string {
  const { bars, ring = [] } = ground;
  const times = barTimes(ground);
  const played = bars.map((bar, index): PlayedBar => {
    const own = notes.filter((note) => note.bar === index);
    const struck = strums ? ticksOfChords(bar, bars[index - 1]) : [];
    return { bar, time: times[index] ?? NO_TIME, notes: own, stops: stopsIn(bars, index, notes), struck };
  });
  const columnsOf = columnsByMeter(played);
  const isPlain = areAlike(times) && bars.every(({ chords }) => chords.every(({ chord }) => chord !== undefined));
  const table = (isPlain ? rowsOfChords(columnsOf, played) : undefined) ?? rowsOfBars(columnsOf, played, ground.meter);
  const rings = ring.length === 0 ? [] : [`  ring  ${[...ring].sort((a, b) => a - b).join(' ')}`];
  return `${[`melody  ${name}`, ...rings, ...aligned(table).map((line) => `  ${line}`)].join('\n')}\n`;
}

/** A bar of a tune: what it is, when it is played, its notes, and where the tune falls silent. */
interface PlayedBar {
  readonly bar: TuneBar;
  readonly time: BarTime;
  readonly notes: readonly TuneNote[];
  readonly stops: readonly number[];
  /** Where a chord is struck. Unit: ticks of the bar. */
  readonly struck: readonly number[];
}

/** Where the chords of a bar are taken; one that goes on from the bar before is struck again with the bar. */
function ticksOfChords({ chords }: TuneBar, before: TuneBar | undefined): readonly number[] {
  const held = [before?.chords.at(-1), ...chords];
  return chords.flatMap(({ tick, chord }, at) => {
    const isTaken = chord !== undefined && (at === 0 || chord.name !== held[at]?.chord?.name);
    return isTaken ? [tick] : [];
  });
}

/** Never asked for: every bar has its time. */
const NO_TIME: BarTime = { meter: COMMON_TIME, from: 0, to: 0, start: 0, scale: 1 };

/** Where no chord is played any more after notes that would sound on. Unit: ticks of the bar. */
function stopsIn(bars: readonly TuneBar[], index: number, notes: readonly TuneNote[]): readonly number[] {
  return (bars[index]?.chords ?? []).flatMap(({ tick, chord }, at) => {
    if (chord !== undefined) return [];
    const before = at > 0 ? bars[index]?.chords[at - 1] : bars[index - 1]?.chords.at(-1);
    const hasSounded = notes.some((note) => note.bar < index || (note.bar === index && note.tick < tick));
    return before?.chord !== undefined && hasSounded ? [tick] : [];
  });
}

/** By bar, the columns of its count: bars of one meter are counted alike, and a bar has those of the part that is played. */
function columnsByMeter(bars: readonly PlayedBar[]): (bar: PlayedBar) => readonly CountColumn[] {
  const byMeter = new Map<string, readonly CountColumn[]>();
  for (const { time } of bars) {
    const name = printMeter(time.meter);
    if (byMeter.has(name)) continue;
    const alike = bars.filter((other) => printMeter(other.time.meter) === name);
    const ticks = alike.flatMap(({ notes, stops, struck }) => [...notes.map(({ tick }) => tick), ...stops, ...struck]);
    byMeter.set(name, countColumns(time.meter, ticks));
  }
  return ({ time: { meter, from, to } }) =>
    (byMeter.get(printMeter(meter)) ?? []).filter(({ tick }) => tick >= from && tick < to);
}

type ColumnsOf = ReturnType<typeof columnsByMeter>;

type Table = readonly (readonly string[])[];

/** One row for each chord, where it has bars of its own and the same notes in all of them; nothing otherwise. */
function rowsOfChords(columnsOf: ColumnsOf, bars: readonly PlayedBar[]): Table | undefined {
  const rows = new Map<string, Table>();
  let count: readonly CountColumn[] = [];
  for (const played of bars) {
    const [only, ...others] = played.bar.chords;
    if (only?.chord === undefined || others.length > 0) return undefined;
    count = columnsOf(played);
    const { name } = only.chord;
    const fingers = played.notes.length === 0 ? [] : [['fingers', ...fingersIn(count, played)]];
    const row = [[name, ...placesIn(count, played)], ...fingers];
    const known = rows.get(name);
    if (known !== undefined && known.flat().join(' ') !== row.flat().join(' ')) return undefined;
    rows.set(name, row);
  }
  const struck = bars[0]?.struck ?? [];
  const strokes = struck.length === 0 ? [] : [['strum', ...strokesAt(count, struck)]];
  return [['count', ...count.map(({ word }) => word)], ...[...rows.values()].flat(), ...strokes];
}

function rowsOfBars(columnsOf: ColumnsOf, bars: readonly PlayedBar[], meter: Meter): Table {
  const lines: string[][] = [];
  // What only the count says stands in it alone, and the other rows follow it without bar lines.
  const hasSigns = bars.some(
    ({ bar, time }) => bar.signs !== undefined || printMeter(time.meter) !== printMeter(meter),
  );
  let before = meter;
  for (const line of linesOf(bars)) {
    const joined = (cells: (bar: PlayedBar) => readonly string[]) =>
      line.flatMap((bar, at) => (at === 0 || hasSigns ? cells(bar) : ['|', ...cells(bar)]));
    const signed = line.flatMap((played, at) => {
      const words = columnsOf(played).map(({ word }) => word);
      const changes = printMeter(played.time.meter) !== printMeter(before);
      before = played.time.meter;
      return signedCount(changes ? [printMeter(before), ...words] : words, played.bar.signs, at === 0);
    });
    lines.push(['count', ...(hasSigns ? signed : joined((bar) => columnsOf(bar).map(({ word }) => word)))]);
    lines.push(['tune', ...joined((bar) => placesIn(columnsOf(bar), bar))]);
    lines.push(['fingers', ...joined((bar) => fingersIn(columnsOf(bar), bar))]);
    if (line.some(({ struck }) => struck.length > 0)) {
      lines.push(['strum', ...joined((bar) => strokesAt(columnsOf(bar), bar.struck))]);
    }
  }
  return lines;
}

/** Bars that are not full, at the beginning and the end, go with the line beside them: alone they would be counted from 1. */
function linesOf(bars: readonly PlayedBar[]): readonly (readonly PlayedBar[])[] {
  const isFull = ({ time: { meter, from, to } }: PlayedBar) => to - from === ticksOf(meter);
  const lines: PlayedBar[][] = [];
  for (const [at, bar] of bars.entries()) {
    const line = lines.at(-1);
    const isShortEnd = at === bars.length - 1 && !isFull(bar);
    if (line !== undefined && (line.filter(isFull).length < BARS_OF_LINE || isShortEnd)) line.push(bar);
    else lines.push([bar]);
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

function placesIn(columns: readonly CountColumn[], { notes, stops }: PlayedBar): readonly string[] {
  return columns.map(({ tick }) => {
    const note = notes.find((one) => one.tick === tick);
    if (note !== undefined) return `${note.string}:${note.fret}`;
    return stops.includes(tick) ? 'stop' : '.';
  });
}

function fingersIn(columns: readonly CountColumn[], { notes }: PlayedBar): readonly string[] {
  return columns.map(({ tick }) => {
    const note = notes.find((one) => one.tick === tick);
    return note === undefined ? '.' : String(note.way.finger ?? 0);
  });
}

/** Strokes that spread slowly, so that each string is heard. */
function strokesAt(columns: readonly CountColumn[], ticks: readonly number[]): readonly string[] {
  return columns.map(({ tick }) => (ticks.includes(tick) ? 'D~' : '.'));
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
