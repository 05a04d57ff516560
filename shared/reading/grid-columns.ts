import type { Meter } from '../theory/meter.ts';
import { greatestCommonDivisor } from '../theory/rational.ts';
import type { Moment, TimedBar } from './passage.ts';
import type { TabMark } from './tab-marks.ts';
import { TICKS_OF_COUNT, ticksOfBar } from './tick.ts';

/** One column of a melody or pattern. */
export interface GridColumn {
  /** What is said there: `2`, `&`. */
  readonly said: string;
  readonly marks: readonly TabMark[];
  /** Where it stands in the lines of the text; absent where nothing begins. */
  readonly at?: number;
  /** The chord that begins there. */
  readonly chord?: string;
}

export interface GridBar {
  readonly columns: readonly GridColumn[];
  /** Where the bar begins in the lines of the text. */
  readonly at: number;
  readonly opens: boolean;
  readonly closes: boolean;
  readonly times?: number;
}

/** What is said between two counts. Source: common practice, no source. */
const BETWEEN: Readonly<Record<number, readonly string[]>> = { 2: ['&'], 3: ['la', 'li'], 4: ['e', '&', 'a'] };

/** The bar with a count under which each of its moments has a column of its own. */
export function gridBar(bar: TimedBar, meter: Meter, startTick: number): GridBar {
  const { column, opens, closes, times } = bar;
  const counts = Math.max(meter.counts, ...bar.moments.map(({ tick }) => Math.floor(tick / TICKS_OF_COUNT) + 1));
  const moments: Moment[][] = Array.from({ length: counts }, () => []);
  for (const moment of bar.moments) moments[Math.floor(moment.tick / TICKS_OF_COUNT)]?.push(moment);
  const parts = moments.map(partsOf);
  // Halves are counted through the whole bar, as a class does.
  const evened = parts.includes(2) ? parts.map((many) => (many === 1 ? 2 : many)) : parts;
  const first = Math.floor(startTick / TICKS_OF_COUNT);
  const columns = evened.flatMap((many, count) =>
    count < first ? [] : countColumns(count, many, moments[count] ?? []),
  );
  return { columns, at: column, opens, closes, ...(times === undefined ? {} : { times }) };
}

/** True where a bar has more counts than its meter. */
export function isTooLong({ moments }: TimedBar, meter: Meter): boolean {
  return moments.some(({ tick }) => tick >= ticksOfBar(meter));
}

function partsOf(moments: readonly Moment[]): number {
  const common = moments.reduce((step, { tick }) => {
    const within = tick % TICKS_OF_COUNT;
    return within === 0 ? step : greatestCommonDivisor(step, within);
  }, TICKS_OF_COUNT);
  return Math.min(MOST_PARTS, TICKS_OF_COUNT / common);
}

/** Finer than this no count is divided; what would be goes to the nearest part. */
const MOST_PARTS = 16;

function countColumns(count: number, parts: number, moments: readonly Moment[]): readonly GridColumn[] {
  const marks = new Map<number, Moment>();
  for (const moment of moments) {
    let part = Math.floor(((moment.tick % TICKS_OF_COUNT) * parts) / TICKS_OF_COUNT + 0.5);
    while (marks.has(part)) part += 1;
    marks.set(Math.min(part, parts - 1 + marks.size), moment);
  }
  const columns = Math.max(parts, ...[...marks.keys()].map((part) => part + 1));
  const words = BETWEEN[columns] ?? Array.from({ length: columns - 1 }, () => 't');
  return Array.from({ length: columns }, (_, part): GridColumn => {
    const moment = marks.get(part);
    const said = part === 0 ? String(count + 1) : (words[part - 1] ?? 't');
    return moment === undefined ? { said, marks: [] } : { said, marks: moment.marks, at: moment.column };
  });
}
