import type { StringLine } from './string-line.ts';
import type { TabSystem } from './systems.ts';
import { fretAt, StringReader, type TabMark } from './tab-marks.ts';

/** A bar of a tab: what its strings play, by columns. */
export interface TabBar {
  /** Where it begins in the lines of its system. */
  readonly column: number;
  /** Unit: columns. */
  readonly width: number;
  readonly marks: readonly TabMark[];
  readonly opens: boolean;
  readonly closes: boolean;
  /** `x3` behind the repeat. */
  readonly times?: number;
}

/** What is to be told of a place in a tab, and the bar it stands in, counted from 0. */
export interface BarRemark {
  readonly bar: number;
  readonly message: string;
}

export interface BarsOfTab {
  readonly bars: readonly TabBar[];
  readonly remarks: readonly BarRemark[];
}

/** A stretch of one line between two bar lines. */
interface Segment {
  readonly column: number;
  readonly text: string;
  readonly opens: boolean;
  readonly closes: boolean;
}

/** Reads the systems of one piece in order. The strings remember what they played from system to system. */
export class TabReader {
  readonly #plucksOnly: boolean;
  readonly #strings: StringReader[] = [];

  constructor(systems: readonly TabSystem[]) {
    this.#plucksOnly = systems.every(({ lines }) => lines.every(({ body }) => !/\d/.test(body)));
  }

  /** True where the tab says which strings are plucked, and no frets. */
  get plucksOnly(): boolean {
    return this.#plucksOnly;
  }

  read({ lines }: TabSystem): BarsOfTab {
    const segments = segmentsOf(lines);
    const remarks: BarRemark[] = [];
    const marks: TabMark[][] = [];
    const even = segments.map((bar) => evenColumns(bar.map(({ text }) => text)));
    even.forEach(({ uneven }, bar) => {
      if (uneven) remarks.push({ bar, message: 'its lines are not equally long' });
    });
    lines.forEach((_, index) => {
      const reader = this.#stringAt(index);
      even.forEach(({ columnOf }, bar) => {
        const text = segments[bar]?.[index]?.text ?? '';
        const read = reader.readBar(text);
        const moved = read.marks.map((mark) => ({ ...mark, column: columnOf(index, mark.column) }));
        marks[bar] = [...(marks[bar] ?? []), ...moved];
        for (const { string, message } of read.remarks) remarks.push({ bar, message: `string ${string}: ${message}` });
      });
    });
    const times = lines.find((line) => line.times !== undefined)?.times;
    return { bars: withTimes(barsOf(segments, even, marks), times), remarks };
  }

  #stringAt(index: number): StringReader {
    const known = this.#strings[index] ?? new StringReader(index + 1, this.#plucksOnly);
    this.#strings[index] = known;
    return known;
  }
}

function barsOf(
  segments: readonly (readonly Segment[])[],
  even: readonly EvenColumns[],
  marks: readonly (readonly TabMark[])[],
): readonly TabBar[] {
  return segments.map((bar, index) => ({
    column: bar[0]?.column ?? 0,
    width: even[index]?.width ?? 0,
    marks: [...(marks[index] ?? [])].sort((one, other) => one.column - other.column || other.string - one.string),
    opens: bar.some(({ opens }) => opens),
    closes: bar.some(({ closes }) => closes),
  }));
}

/** `x3` belongs to the repeat that ends the line, or repeats the whole line where no repeat is drawn. */
function withTimes(bars: readonly TabBar[], times: number | undefined): readonly TabBar[] {
  if (times === undefined || times < 2) return bars;
  const drawn = bars.some(({ closes }) => closes);
  return bars.map((bar, index) => ({
    ...bar,
    opens: bar.opens || (!drawn && index === 0),
    ...(index === bars.length - 1 ? { closes: true, times } : {}),
  }));
}

/** The bars of a system, each with one segment for every line, from the top line down. */
function segmentsOf(lines: readonly StringLine[]): readonly (readonly Segment[])[] {
  const byLine = lines.map(({ body, column }) => cutAtBars(body, column, barLinesIn(body)));
  const counts = new Set(byLine.map(({ length }) => length));
  const cut = counts.size === 1 ? byLine : cutTogether(lines);
  const bars = Array.from({ length: cut[0]?.length ?? 0 }, (_, bar) => cut.flatMap((line) => line[bar] ?? []));
  // Between the two strokes of a double bar, and outside the first and the last bar line, is nothing.
  return bars.filter((bar) => bar.some(({ text }) => text !== ''));
}

/** Where the lines disagree about their bars, a bar line is where at least half of them have one. */
function cutTogether(lines: readonly StringLine[]): readonly (readonly Segment[])[] {
  const votes = new Map<number, number>();
  const start = Math.min(...lines.map(({ column }) => column));
  for (const { body, column } of lines) {
    for (const at of barLinesIn(body)) votes.set(column + at, (votes.get(column + at) ?? 0) + 1);
  }
  const agreed = [...votes].filter(([, count]) => count * 2 >= lines.length).map(([at]) => at);
  const width = Math.max(...lines.map(({ body, column }) => column - start + body.length));
  const at = agreed.map((column) => column - start).sort((one, other) => one - other);
  return lines.map(({ body, column }) =>
    cutAtBars((' '.repeat(column - start) + body).padEnd(width, '-'), start, at).map((segment) => ({
      ...segment,
      text: segment.text.replaceAll('|', '-'),
    })),
  );
}

function barLinesIn(body: string): readonly number[] {
  return [...body.matchAll(/\|/g)].map(({ index }) => index);
}

/** Dots beside a bar line are those of a repeat: `|:` `:|`, and `|*` `*|` or `|o` `o|` on the middle lines. They stay as dashes. */
function cutAtBars(body: string, column: number, bars: readonly number[]): readonly Segment[] {
  const ends = [...bars, body.length];
  return ends.map((end, index) => {
    const start = index === 0 ? 0 : (ends[index - 1] ?? 0) + 1;
    let text = body.slice(start, end);
    const opens = index > 0 && /^(?::|[*oO](?=[-|=]))/.test(text);
    if (opens) text = `-${text.slice(1)}`;
    const closes = index < bars.length && /(?::|[-=][*oO])$/.test(text);
    if (closes) text = `${text.slice(0, -1)}-`;
    return { column: column + start, text, opens, closes };
  });
}

interface EvenColumns {
  readonly width: number;
  readonly uneven: boolean;
  /** Where a column of a line lies among those of the bar. */
  columnOf(line: number, column: number): number;
}

/**
 * The columns that the lines of a bar share. Lines that are longer by as many columns as they have frets of two figures were
 * written as if such a fret took one column: then it does.
 */
function evenColumns(texts: readonly string[]): EvenColumns {
  const width = Math.max(0, ...texts.map(({ length }) => length));
  const isEven = texts.every(({ length }) => length === width);
  const asWritten = { width, columnOf: (_: number, column: number) => column };
  if (isEven) return { ...asWritten, uneven: false };
  const narrowed = texts.map(withoutSecondFigures);
  const [narrow, ...others] = new Set(narrowed.map(({ width: narrowWidth }) => narrowWidth));
  if (narrow === undefined || others.length > 0) return { ...asWritten, uneven: true };
  return { width: narrow, uneven: false, columnOf: (line, column) => narrowed[line]?.columns[column] ?? column };
}

/** Where each column of a line would lie if every fret took one, and how wide the line would be. */
function withoutSecondFigures(text: string): { readonly width: number; readonly columns: readonly number[] } {
  const columns: number[] = [];
  let width = 0;
  for (let at = 0; at < text.length; width += 1) {
    const end = /\d/.test(text.charAt(at)) ? fretAt(text, at).end : at + 1;
    for (; at < end; at += 1) columns.push(width);
  }
  return { width, columns };
}
