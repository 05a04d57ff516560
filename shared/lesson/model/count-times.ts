import type { Span } from '../../text/span.ts';
import {
  barLength,
  beatLength,
  beatsPerBar,
  countLength,
  isCompound,
  type Meter,
  printMeter,
} from '../../theory/meter.ts';
import { compare, minus, over, plus, type Rational, rational, times, ZERO } from '../../theory/rational.ts';
import type { CountRow } from '../syntax/statement.ts';
import { tellBeats } from './tell-beats.ts';

/** One column of a line of music: when it begins and how long it is, in whole notes from the line's first column. */
export interface ColumnTime {
  readonly at: Rational;
  readonly length: Rational;
  /** What is said aloud. Empty where no count was written. */
  readonly said: string;
}

export interface CountTimes {
  readonly columns: readonly ColumnTime[];
  readonly length: Rational;
  /** How far into its bar the line begins: more than zero where the first count is not 1. */
  readonly startsAt: Rational;
  /** The first column of each bar, in order. */
  readonly firsts: readonly number[];
  /** The meter of each of these bars. */
  readonly meters: readonly Meter[];
  /** Full bars that the line has or begins, its pickup not counted. */
  readonly bars: number;
  readonly faults: readonly CountFault[];
}

export interface CountFault {
  readonly code: string;
  readonly span: Span;
  readonly message: string;
  readonly instead?: readonly { readonly title: string; readonly text: string; readonly span: Span }[];
  readonly quiet?: boolean;
}

/** Most parts of a beat that a row without a count may have: sixteenths in simple meters. Common practice, no source. */
const MOST_PARTS = 4;

/**
 * The length of one numbered count from a column on: in compound meters numbers up to the number of beats are said for beats, higher
 * ones for eighths.
 */
function lengthOfCount(row: CountRow, meter: Meter, from: number): Rational {
  if (!isCompound(meter)) return countLength(meter);
  const end = row.meters.find(({ column }) => column > from)?.column;
  const highest = Math.max(0, ...row.columns.slice(from, end).map((column) => column.counts?.[1] ?? 0));
  return highest <= beatsPerBar(meter) ? beatLength(meter) : countLength(meter);
}

/**
 * When each column of a count begins; `meter` holds until the count says another one. Faults name what does not add up, and the bar, the first full one being `firstBar`; the times
 * are the best reading all the same. `cameRoundTo` is what `comesRoundTo` makes of the lines before: a bar before a repeat that comes
 * round to the pickup is that much shorter.
 */
export function timeCounts(row: CountRow, meter: Meter, firstBar = 1, cameRoundTo?: Rational): CountTimes {
  let counted = countedIn(row, meterAt(row, 0) ?? meter, 0);
  const faults: CountFault[] = [];
  const columns: ColumnTime[] = [];
  const barAt = new Set(
    row.signs.filter((sign) => sign.column > 0 && sign.column < row.columns.length).map((sign) => sign.column),
  );

  const first = row.columns[0]?.counts?.[0] ?? 1;
  const startsAt = times(counted.unit, rational(first - 1));
  // Time of the current bar's first count, from the first column; negative where the line begins inside a bar.
  let barStart = minus(ZERO, startsAt);
  const firsts = row.columns.length === 0 ? [] : [0];
  const meters = firsts.map(() => counted.meter);
  let expected = first;
  let end: Rational = ZERO;
  // The bar that is being counted; a pickup stands before the first.
  let bar = first > 1 ? firstBar - 1 : firstBar;
  let surplus: Span | undefined;
  const name = (): string => (bar < firstBar ? 'The pickup' : `Bar ${bar}`);
  const byCounts = (counts: number): string => tellBeats(times(counted.unit, rational(counts)), counted.meter);
  const tellSurplus = (): void => {
    if (surplus === undefined) return;
    const { countsInBar } = counted;
    const message = `${name()} is ${byCounts(expected - 1 - countsInBar)} too long: in ${printMeter(counted.meter)} it is counted to ${countsInBar}.`;
    faults.push({ code: 'count.beyond-meter', span: surplus, message });
    surplus = undefined;
  };
  const tellShort = (said: number, before: number): void => {
    const { countsInBar, meter: here } = counted;
    faults.push({
      code: 'count.bar-short',
      span: row.columns[before - 1]?.word.span ?? row.span,
      message: `${name()} is ${byCounts(countsInBar - said)} too short: it is counted to ${said}, and in ${printMeter(here)} to ${countsInBar}.`,
    });
  };
  for (let index = 0; index < row.columns.length; ) {
    const column = row.columns[index];
    if (column === undefined) break;
    const [from, to] = column.counts ?? [expected, expected];
    if (index > 0 && (barAt.has(index) || from < expected)) {
      const { unit, full, countsInBar } = counted;
      const said = expected - 1;
      const soFar = times(unit, rational(said));
      const before = roundTo(row, index, startsAt, cameRoundTo);
      const isRestOfPickup = before !== undefined && said > 0 && compare(soFar, before) === 0;
      // What comes before the first number is told where it is read.
      const isUnread = firsts.length === 1 && row.columns[0]?.counts === undefined;
      if (said < countsInBar && !isUnread && !isRestOfPickup && !(barStart.numerator < 0 && said === 0)) {
        tellShort(said, index);
      }
      tellSurplus();
      bar += 1;
      barStart = plus(barStart, isRestOfPickup ? soFar : full);
      counted = countedIn(row, meterAt(row, index) ?? counted.meter, index);
      firsts.push(index);
      meters.push(counted.meter);
      expected = 1;
    }
    if (column.counts !== undefined && from !== expected) {
      faults.push({
        code: 'count.jump',
        span: column.word.span,
        message:
          from > expected
            ? `After ${expected - 1} comes ${expected}, not ${from}. A count that is held through is written ${expected - 1}-${from - 1}.`
            : `${from} was counted already.`,
      });
    }
    let parts = 1;
    while (
      row.columns[index + parts] !== undefined &&
      row.columns[index + parts]?.counts === undefined &&
      !barAt.has(index + parts)
    )
      parts++;
    const { unit } = counted;
    const at = plus(barStart, times(unit, rational(from - 1)));
    const whole = times(unit, rational(to - from + 1));
    const part = over(whole, rational(parts));
    for (let offset = 0; offset < parts; offset++) {
      columns.push({
        at: plus(at, times(part, rational(offset))),
        length: part,
        said: row.columns[index + offset]?.word.text ?? '',
      });
    }
    if (to > counted.countsInBar) {
      const last = row.columns[index + parts - 1] ?? column;
      surplus = { start: surplus?.start ?? column.word.span.start, end: last.word.span.end };
    }
    const third = thirdsFault(row, index, parts, counted.meter);
    if (third !== undefined) faults.push(third);
    end = plus(at, whole);
    expected = to + 1;
    index += parts;
  }
  // A pattern may end within a bar; but where it has a pickup and goes back to a full bar, that one would come too early.
  const back = roundTo(row, row.columns.length, startsAt, cameRoundTo);
  if (startsAt.numerator > 0 && back?.numerator === 0 && expected - 1 < counted.countsInBar)
    tellShort(expected - 1, row.columns.length);
  tellSurplus();
  return { columns, length: end, startsAt, firsts, meters, bars: Math.max(0, bar - firstBar + 1), faults };
}

/** The meter that the count says in front of a column. */
function meterAt({ meters }: CountRow, at: number): Meter | undefined {
  return meters.find(({ column }) => column === at)?.meter.meter;
}

/** How bars are counted from a column on. */
function countedIn(row: CountRow, meter: Meter, from: number) {
  const unit = lengthOfCount(row, meter, from);
  const full = barLength(meter);
  return { meter, unit, full, countsInBar: over(full, unit).numerator };
}

/** What is missing before the pickup that a repeat in a further line would come round to; zero where it comes round to a full bar. */
export function comesRoundTo({ signs }: CountRow, startsAt: Rational, before: Rational | undefined): Rational {
  const opens = signs.some(({ sign, column }) => sign.text.endsWith(':') && (column > 0 || before !== undefined));
  return opens ? ZERO : (before ?? startsAt);
}

/** The same for a repeat that closes before a column; undefined where none does. */
function roundTo(
  { signs }: CountRow,
  column: number,
  startsAt: Rational,
  before: Rational | undefined,
): Rational | undefined {
  if (!signs.some(({ sign, column: at }) => at === column && sign.text.startsWith(':'))) return undefined;
  const opens = (at: number) => at < column && (at > 0 || before !== undefined);
  const isReopened = signs.some(({ sign, column: at }) => sign.text.endsWith(':') && opens(at));
  return isReopened ? ZERO : (before ?? startsAt);
}

/** `1 & a` and `1 e &` in a simple meter mean thirds to half of the trade and sixteenths to the other half. Common practice, no source. */
function thirdsFault(row: CountRow, index: number, parts: number, meter: Meter): CountFault | undefined {
  if (isCompound(meter) || parts !== 3) return undefined;
  const [number, second, third] = [row.columns[index], row.columns[index + 1], row.columns[index + 2]];
  if (number === undefined || second === undefined || third === undefined) return undefined;
  const said = `${plainAnd(second.word.text)} ${third.word.text === 'and' || third.word.text === '+' ? '&' : third.word.text}`;
  if (said !== '& a' && said !== 'e &') return undefined;
  const span = { start: number.word.span.start, end: third.word.span.end };
  const count = number.word.text;
  return {
    code: 'count.thirds',
    span,
    message: `${count} ${said} is read as three even parts. If you mean sixteenths, count all four; if thirds, ${count} la li says so.`,
    instead: [{ title: `Thirds: ${count} la li`, text: `${count} la li`, span }],
    quiet: true,
  };
}

function plainAnd(text: string): string {
  return text === 'and' || text === '+' ? '&' : text;
}

/** Columns of a row that has no count: they share the bar evenly when that gives one to four a beat. Undefined when it does not. */
export function timeEvenly(cells: number, meter: Meter): CountTimes | undefined {
  const beats = beatsPerBar(meter);
  const most = isCompound(meter) ? 6 : MOST_PARTS;
  const parts = cells / beats;
  if (!Number.isInteger(parts) || parts < 1 || parts > most) return undefined;
  const length = over(barLength(meter), rational(cells));
  const columns = Array.from({ length: cells }, (_, index) => ({
    at: times(length, rational(index)),
    length,
    said: saidFor(index, parts, meter),
  }));
  return { columns, length: barLength(meter), startsAt: ZERO, firsts: [0], meters: [meter], bars: 1, faults: [] };
}

/** What a teacher says for an even split. Source: traditional counting, as in the general article on counting in music. */
const SYLLABLES: Readonly<Record<number, readonly string[]>> = { 1: [], 2: ['&'], 3: ['la', 'li'], 4: ['e', '&', 'a'] };

function saidFor(index: number, parts: number, meter: Meter): string {
  const beat = Math.floor(index / parts);
  const part = index % parts;
  if (isCompound(meter)) {
    const eighths = parts === 6 ? 2 : 1;
    if (parts < 3) return part === 0 ? String(beat + 1) : '&';
    return part % eighths === 0 ? String(beat * 3 + part / eighths + 1) : '&';
  }
  return part === 0 ? String(beat + 1) : (SYLLABLES[parts]?.[part - 1] ?? '&');
}
