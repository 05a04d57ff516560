import { type BarRemark, otherBarLines, otherWidths } from './row-agreement.ts';
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

export interface BarsOfTab {
  readonly bars: readonly TabBar[];
  readonly remarks: readonly BarRemark[];
  /** Which lines do not agree with the others, so that notes may stand at other times than the writer meant. */
  readonly uneven: readonly BarRemark[];
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
    const { segments, uneven: otherBars } = segmentsOf(lines);
    const remarks: BarRemark[] = [];
    const marks: TabMark[][] = [];
    const even = segments.map((bar) => evenColumns(bar.map(({ text }) => text)));
    const uneven = [...otherBars];
    even.forEach((columns, bar) => {
      const widths = segments[bar]?.map(({ text }) => text.length) ?? [];
      if (columns.uneven) uneven.push(...otherWidths(lines, widths, bar));
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
    return { bars: withTimes(barsOf(segments, even, marks), times), remarks, uneven };
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
function segmentsOf(lines: readonly StringLine[]): {
  readonly segments: readonly (readonly Segment[])[];
  readonly uneven: readonly BarRemark[];
} {
  // Between the two strokes of a double bar, and outside the first and the last bar line, is nothing.
  const byLine = lines.map(({ body, column }) => drawn(cutAtBars(body, column, barLinesIn(body))));
  const agree = new Set(byLine.map(({ length }) => length)).size === 1;
  const { cut, uneven } = agree ? { cut: byLine, uneven: [] } : cutTogether(lines);
  const bars = Array.from({ length: cut[0]?.length ?? 0 }, (_, bar) => cut.flatMap((line) => line[bar] ?? []));
  return { segments: bars.filter((bar) => bar.some(({ text }) => text !== '')), uneven };
}

function drawn(segments: readonly Segment[]): readonly Segment[] {
  return segments.filter(({ text }) => text !== '');
}

/** Where the lines disagree about their bars, a bar line is where at least half of them have one. */
function cutTogether(lines: readonly StringLine[]): {
  readonly cut: readonly (readonly Segment[])[];
  readonly uneven: readonly BarRemark[];
} {
  const votes = new Map<number, number>();
  const start = Math.min(...lines.map(({ column }) => column));
  const barLines = lines.map(({ body, column }) => barLinesIn(body).map((at) => column + at));
  for (const at of barLines.flat()) votes.set(at, (votes.get(at) ?? 0) + 1);
  const agreed = [...votes].filter(([, count]) => count * 2 >= lines.length).map(([at]) => at);
  const width = Math.max(...lines.map(({ body, column }) => column - start + body.length));
  const at = agreed.map((column) => column - start).sort((one, other) => one - other);
  const cut = lines.map(({ body, column }) =>
    cutAtBars((' '.repeat(column - start) + body).padEnd(width, '-'), start, at).map((segment) => ({
      ...segment,
      text: segment.text.replaceAll('|', '-'),
    })),
  );
  return { cut, uneven: otherBarLines(lines, barLines, agreed) };
}

/** Widths of the bars of a line, from the left, and whether a bar line stands behind the last. Unit: columns. */
export function barWidths(body: string): { readonly widths: readonly number[]; readonly isClosed: boolean } {
  const widths = drawn(cutAtBars(body, 0, barLinesIn(body))).map(({ text }) => text.length);
  return { widths, isClosed: body.endsWith('|') };
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
