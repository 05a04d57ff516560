import type { Instrument } from '../neck/instrument.ts';
import { type Meter, printMeter } from '../theory/meter.ts';
import { withChords } from './chord-row.ts';
import { type PieceText, withCutBarsJoined } from './cut-bars.ts';
import { equalTicks } from './equal-rhythm.ts';
import { type GridBar, gridBar, isTooLong } from './grid-columns.ts';
import { countText, musicLines, type PlacedBar } from './music-lines.ts';
import type { Passage, RhythmWish, TimedBar } from './passage.ts';
import type { WrittenBlock } from './progression-text.ts';
import { timePiece } from './rhythm.ts';
import { TabReader } from './tab-bars.ts';
import type { TabMark } from './tab-marks.ts';
import { goingOn, rowsOf, voicesOf } from './tab-rows.ts';
import type { SystemText } from './text-lines.ts';
import { instrumentFor, stringOrder } from './tuning-told.ts';

export interface PieceWish {
  readonly rhythm: RhythmWish;
  /** The lesson's. */
  readonly meter: Meter;
  /** That which the text names, where it is another. */
  readonly saidMeter?: Meter;
  readonly instrument?: Instrument;
  /** What the piece becomes; chosen by what it holds where nothing is said. */
  readonly as?: 'melody' | 'pattern';
}

export interface WrittenPiece extends WrittenBlock {
  readonly kind: 'melody' | 'pattern';
  /** True where the text does not say the rhythm. */
  readonly isGuess: boolean;
  readonly told: readonly string[];
}

/** Reads a piece of tab and writes it as a melody, or as a pattern where it only says which strings of a chord are picked. */
export function printPiece(
  text: PieceText,
  wish: PieceWish,
  nameOf: (kind: 'melody' | 'pattern') => string,
): WrittenPiece {
  const { systems, kept, joined, doubtful } = withCutBarsJoined(text);
  const reader = new TabReader(systems.map(({ system }) => system));
  const first = systems[0]?.system.lines ?? [];
  const labels = first.map(({ label }) => label);
  const taken = wish.instrument === undefined ? instrumentFor(labels) : undefined;
  const order = stringOrder(labels, wish.instrument ?? taken?.instrument);
  const strings = [taken?.remark, order.remark].filter((remark) => remark !== undefined);
  const barRemarks = joined.map(({ bar, message }) => `Bar ${bar + 1}: ${message}.`);
  const warnings = doubtful.map(({ bar, message }) => `Bar ${bar + 1}: ${message}.`);
  const asWritten: { before: number; written: string }[] = [];
  let barsBefore = 0;
  const passages = systems.map(({ system, count, letters }, before): Passage => {
    const { bars, remarks, uneven } = reader.read(system);
    for (const { bar, message } of remarks) barRemarks.push(`Bar ${barsBefore + bar + 1}: ${message}.`);
    for (const { bar, message } of uneven) warnings.push(`Bar ${barsBefore + bar + 1}: ${message}.`);
    if (uneven.length > 0) {
      const lines = system.lines.flatMap(({ line }) => line.written);
      asWritten.push(
        ...['Its lines do not agree. As the text has it:', ...lines].map((written) => ({ before, written })),
      );
    }
    for (const { after } of system.lines)
      if (after !== '') barRemarks.push(`Beside bar ${barsBefore + bars.length}: ${after}`);
    barsBefore += bars.length;
    const ordered = bars.map((bar) => ({ ...bar, marks: bar.marks.map((mark) => onString(mark, order.numbers)) }));
    return { bars: ordered, ...(count === undefined ? {} : { count }), ...(letters === undefined ? {} : { letters }) };
  });
  const timed = timePiece(passages, wish.rhythm, wish.saidMeter ?? wish.meter);
  const lettersKept = timed.lettersUnread
    ? systems.flatMap(({ lettersWritten }, before) =>
        lettersWritten === undefined ? [] : [{ before, written: lettersWritten }],
      )
    : [];
  let isFirst = true;
  const placed = timed.passages.flatMap((bars, system) =>
    bars.map((bar): PlacedBar => {
      const startTick = isFirst ? bar.startTick : 0;
      isFirst = false;
      return { system, bar: gridBar(fitted(bar, timed.meter), timed.meter, startTick) };
    }),
  );
  const kind = wish.as ?? kindOf(placed, systems, reader.plucksOnly);
  const folded = kind === 'pattern' ? foldLinks(placed) : placed;
  const { chorded, leftOut } = chordsOver(folded, systems);
  const lines = musicLines(chorded);
  const barsOfLines = lines.map((line) => line.map(({ bar }) => bar));
  const voices = voicesOf(barsOfLines);
  const goesOn = goingOn(barsOfLines, voices);
  const above = [
    ...(timed.guess === undefined
      ? []
      : [`A guess: the text does not say its rhythm; ${timed.guess}. Take this line out when it is right.`]),
    ...strings,
    ...warnings,
    ...barRemarks,
    ...leftOut.map((name) => `There was no place for the chord ${name}.`),
  ];
  const body = linesOf(lines, [...kept, ...asWritten, ...lettersKept], (line) => {
    const bars = line.map(({ bar }) => bar);
    const names = bars.flatMap(({ columns }) => columns.map(({ chord = '.' }) => chord));
    const rows = rowsOf(bars, { voices, goesOn, kind, strings: first.length });
    const chordRow = names.some((name) => name !== '.') ? [{ label: 'chord', cells: names }] : [];
    return [
      `count  ${countText(bars)}`,
      ...[...rows, ...chordRow].map(({ label, cells }) => `${label}  ${barred(cells, bars).join('  ')}`),
    ];
  });
  const meter = printMeter(timed.meter) === printMeter(wish.meter) ? [] : [`  meter  ${printMeter(timed.meter)}`];
  return {
    kind,
    isGuess: timed.guess !== undefined,
    told: [...strings, ...warnings],
    above: above.map((text) => `// ${text}`),
    lines: [`${kind}  ${nameOf(kind)}`, ...meter, ...body],
  };
}

function onString(mark: TabMark, numbers: readonly number[]): TabMark {
  return { ...mark, string: numbers[mark.string - 1] ?? mark.string };
}

/** A bar that has more than its meter holds gets equal notes. */
function fitted(bar: TimedBar, meter: Meter): TimedBar {
  if (!isTooLong(bar, meter)) return bar;
  const ticks = equalTicks(bar.moments.length, meter);
  return { ...bar, moments: bar.moments.map((moment, index) => ({ ...moment, tick: ticks[index] ?? 0 })) };
}

/** Bar lines stand in every row, for the eye. */
function barred(cells: readonly string[], bars: readonly GridBar[]): readonly string[] {
  let at = 0;
  return bars.flatMap(({ columns }, index) => {
    const own = cells.slice(at, at + columns.length);
    at += columns.length;
    return index === 0 ? own : ['|', ...own];
  });
}

function linesOf(
  lines: readonly (readonly PlacedBar[])[],
  kept: PieceText['kept'],
  print: (line: readonly PlacedBar[]) => readonly string[],
): readonly string[] {
  const waiting = [...kept].sort((one, other) => one.before - other.before);
  let next = 0;
  const body: string[] = [];
  for (const line of lines) {
    for (; (waiting[next]?.before ?? Number.POSITIVE_INFINITY) <= (line[0]?.system ?? 0); next += 1) {
      body.push(`  // ${waiting[next]?.written ?? ''}`);
    }
    body.push(...print(line).map((row) => `  ${row}`));
  }
  for (const { written } of waiting.slice(next)) body.push(`  // ${written}`);
  return body;
}

function chordsOver(
  placed: readonly PlacedBar[],
  systems: readonly SystemText[],
): { readonly chorded: readonly PlacedBar[]; readonly leftOut: readonly string[] } {
  const bySystem = systems.map((): GridBar[] => []);
  for (const { bar, system } of placed) bySystem[system]?.push(bar);
  const leftOut: string[] = [];
  const chorded = systems.flatMap(({ chords }, system) => {
    const bars = bySystem[system] ?? [];
    const set = chords === undefined ? { bars, leftOut: [] } : withChords(bars, chords);
    leftOut.push(...set.leftOut);
    return set.bars.map((bar): PlacedBar => ({ bar, system }));
  });
  return { chorded, leftOut };
}

/** Fewest strings that a bar of picking goes over. Common practice, no source. */
const FEWEST_PICKED = 3;

/**
 * A pattern where no frets are written, or where chords stand over every system and each bar picks one held shape: a fret for each
 * string, over three strings or more, mostly one at a time. Everything else is a melody.
 */
function kindOf(
  placed: readonly PlacedBar[],
  systems: readonly SystemText[],
  plucksOnly: boolean,
): 'melody' | 'pattern' {
  if (plucksOnly) return 'pattern';
  if (systems.some(({ chords }) => chords === undefined)) return 'melody';
  return placed.every(({ bar }) => picksShape(bar)) ? 'pattern' : 'melody';
}

function picksShape({ columns }: GridBar): boolean {
  const sounding = columns.filter(({ marks }) => marks.length > 0);
  const frets = new Map<number, number>();
  for (const { string, sound, signs } of sounding.flatMap(({ marks }) => marks)) {
    if (sound.kind !== 'struck' || signs.length > 0) return false;
    if ((frets.get(string) ?? sound.fret) !== sound.fret) return false;
    frets.set(string, sound.fret);
  }
  const single = sounding.filter(({ marks }) => marks.length <= 2).length;
  return frets.size >= FEWEST_PICKED && sounding.length > FEWEST_PICKED && single * 2 > sounding.length;
}

/** In a pattern what the left hand adds stands behind its note: a lone `p5` would be the thumb on string 5. */
function foldLinks(placed: readonly PlacedBar[]): readonly PlacedBar[] {
  const signs = new Map<TabMark, readonly string[]>();
  const last = new Map<number, TabMark>();
  for (const mark of placed.flatMap(({ bar }) => bar.columns.flatMap(({ marks }) => marks))) {
    const before = last.get(mark.string);
    if (mark.sound.kind === 'linked' && before !== undefined) {
      signs.set(before, [...(signs.get(before) ?? before.signs), `${mark.sound.by}${mark.sound.fret}`]);
    } else last.set(mark.string, mark);
  }
  const folded = (mark: TabMark): readonly TabMark[] =>
    mark.sound.kind === 'linked' ? [] : [{ ...mark, signs: signs.get(mark) ?? mark.signs }];
  return placed.map(({ bar, system }) => ({
    system,
    bar: { ...bar, columns: bar.columns.map((column) => ({ ...column, marks: column.marks.flatMap(folded) })) },
  }));
}
