import { barLength, type Meter } from '../../theory/meter.ts';
import { compare, minus, type Rational, ZERO } from '../../theory/rational.ts';
import type { Mark } from '../syntax/marks.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type { GridRow, GridStatement, MusicLine } from '../syntax/statement.ts';
import type { Word } from '../syntax/words.ts';
import {
  type CountLine,
  countedBars,
  hasRepeats,
  type PlayedColumn,
  type PlayedColumns,
  playedColumns,
  writtenColumns,
} from './count-repeats.ts';
import { type CountTimes, comesRoundTo, timeCounts, timeEvenly } from './count-times.ts';
import type { Scope } from './scope.ts';
import { type RowLabel, sameLabel, type TimedGrid, type TimedMark, type TimedRow } from './timed-grid.ts';

/** How deep patterns may be `like` each other; more is a circle. */
const DEEPEST_LIKE = 8;

/** The grid with every mark at its time, or undefined when it has no column at all. `Scope.timed` keeps what comes out. */
export function gridAtItsTimes(scope: Scope, statement: GridStatement): TimedGrid | undefined {
  const meter = meterOf(scope, statement);
  let roundTo: Rational | undefined;
  const merged = mergedLines(scope, statement, DEEPEST_LIKE);
  const meters = metersOfLines(merged, meter);
  const lines = merged.flatMap((line, at): readonly CountedLine[] => {
    const timed = timesOfLine(line, meters[at] ?? meter, roundTo);
    if (line.count !== undefined && timed !== undefined) roundTo = comesRoundTo(line.count, timed.startsAt, roundTo);
    return timed === undefined || timed.columns.length === 0 ? [] : [{ line, timed }];
  });
  const counted = lines.map(({ line, timed }): CountLine => ({ row: line.count, timed }));
  const played = inOrder(scope, statement, lines, playedColumns(counted));
  if (played === undefined || !hasRepeats(counted)) return played;
  const grid = inOrder(scope, statement, lines, writtenColumns(counted));
  return grid === undefined ? played : { ...played, asWritten: { grid, bars: countedBars(counted) } };
}

/** A line of music and the times of its count. */
interface CountedLine {
  readonly line: MergedLine;
  readonly timed: CountTimes;
}

/** The lines with their columns in the order of playing or of the text. */
function inOrder(
  scope: Scope,
  statement: GridStatement,
  lines: readonly CountedLine[],
  { columns, length }: PlayedColumns,
): TimedGrid | undefined {
  const [first] = lines;
  if (first === undefined) return undefined;
  const rows = lines.flatMap(({ line }, number) => {
    const own = lines.length === 1 ? columns : columns.filter((column) => column.line === number);
    return line.rows.map((row, index): TimedRow => {
      const above =
        row.kind === 'fingers' ? line.rows.slice(0, index).findLast((other) => other.kind !== 'fingers') : undefined;
      return { ...timeRow(row, own), ...(above === undefined ? {} : { fingersOf: labelOf(above) }) };
    });
  });
  const base = baseOf(scope, statement);
  const { startsAt } = first.timed;
  const rest = minus(barLength(first.timed.meters[0] ?? meterOf(scope, statement)), startsAt);
  return {
    statement,
    length,
    startsAt,
    lead: startsAt.numerator > 0 && rest.numerator > 0 ? rest : ZERO,
    counts: columns.map(({ at, length, said }) => ({ at, length, said })),
    rows: joinRows(rows),
    plant: statement.plant ?? base?.plant,
    ring: (statement.ring ?? base?.ring)?.ring,
  };
}

/** The meter in which each line begins, where the first begins in `meter`: what one says last goes on in the next. */
export function metersOfLines(lines: readonly Pick<MergedLine, 'count'>[], meter: Meter): readonly Meter[] {
  let now = meter;
  return lines.map(({ count }) => {
    const begins = now;
    now = count?.meters.at(-1)?.meter.meter ?? now;
    return begins;
  });
}

/** The meter that the grid begins in: its own, that of the pattern it is like, or the lesson's. */
export function meterOf(scope: Scope, statement: GridStatement): Meter {
  return statement.meter?.meter ?? baseOf(scope, statement)?.meter?.meter ?? scope.setting('meter');
}

/** The pattern that this one is `like`. */
export function baseOf(scope: Scope, statement: GridStatement): GridStatement | undefined {
  if (statement.like === undefined) return undefined;
  const base =
    scope.grid(statement.kind, statement.like.text) ??
    scope.grid(statement.kind === 'pattern' ? 'melody' : 'pattern', statement.like.text);
  return base === statement ? undefined : base;
}

/** The times of a line of music: from its count, or from its first row where none is written. `cameRoundTo`: see `timeCounts`. */
export function timesOfLine(
  line: Pick<MergedLine, 'count' | 'rows'>,
  meter: Meter,
  cameRoundTo?: Rational,
): CountTimes | undefined {
  if (line.count !== undefined) return timeCounts(line.count, meter, 1, cameRoundTo);
  const first = line.rows[0];
  return first === undefined ? undefined : timeEvenly(first.cells.length, meter);
}

export interface MergedCell {
  readonly mark: Mark;
  readonly word: Word;
  readonly entry: Entry;
}
export interface MergedRow {
  readonly kind: GridRow['kind'];
  readonly voice: number;
  readonly chord?: string;
  readonly cells: readonly MergedCell[];
  /** The row as written here; absent where it was taken over whole. */
  readonly own?: GridRow;
}
export interface MergedLine {
  readonly count?: MusicLine['count'];
  readonly rows: readonly MergedRow[];
}

/** The lines of a grid with the rows of the pattern it is like; `=` takes that pattern's mark, anything else stands as written. */
export function mergedLines(scope: Scope, statement: GridStatement, depth = DEEPEST_LIKE): readonly MergedLine[] {
  const entry = scope.entryOf(statement);
  if (entry === undefined) return [];
  const own = statement.lines.map((line) => ownLine(line, entry));
  const base = depth === 0 ? undefined : baseOf(scope, statement);
  if (base === undefined) return own;
  const under = mergedLines(scope, base, depth - 1);
  const count = Math.max(own.length, under.length);
  return Array.from({ length: count }, (_, index) => mergeLine(own[index], under[index]));
}

function ownLine(line: MusicLine, entry: Entry): MergedLine {
  return {
    ...(line.count === undefined ? {} : { count: line.count }),
    rows: line.rows.map((row) => ({
      kind: row.kind,
      voice: row.voice,
      ...(row.chord === undefined ? {} : { chord: row.chord.text }),
      cells: row.cells.map((cell) => ({ ...cell, entry })),
      own: row,
    })),
  };
}

function mergeLine(own: MergedLine | undefined, base: MergedLine | undefined): MergedLine {
  if (own === undefined || base === undefined) return own ?? base ?? { rows: [] };
  const count = own.count ?? base.count;
  const rows = base.rows.map((row) => {
    const over = own.rows.find((other) => sameLabel(other, row));
    if (over === undefined) return row;
    return {
      ...over,
      cells: over.cells.map((cell, index) => (cell.mark.kind === 'keep' ? (row.cells[index] ?? cell) : cell)),
    };
  });
  const added = own.rows.filter((row) => !base.rows.some((other) => sameLabel(row, other)));
  return { ...(count === undefined ? {} : { count }), rows: [...rows, ...added] };
}

function labelOf({ kind, voice, chord }: RowLabel): RowLabel {
  return { kind, voice, ...(chord === undefined ? {} : { chord }) };
}

function timeRow(row: MergedRow, columns: readonly PlayedColumn[]): TimedRow {
  const marks = columns.flatMap(({ column, at, length, again }): TimedMark[] => {
    const cell = row.cells[column];
    return cell === undefined ? [] : [{ ...cell, at, length, ...(again ? { again } : {}) }];
  });
  return { kind: row.kind, voice: row.voice, marks, ...(row.chord === undefined ? {} : { chord: row.chord }) };
}

/** Rows of the same kind, voice and chord in lines that follow each other are one row that goes on. */
function joinRows(rows: readonly TimedRow[]): readonly TimedRow[] {
  const joined: TimedRow[] = [];
  for (const row of rows) {
    const index = row.kind === 'fingers' ? -1 : joined.findIndex((other) => sameLabel(other, row));
    const open = joined[index];
    if (open === undefined) joined.push(row);
    // A repeat may come round over several lines, so that a line is played before and after the next.
    else joined[index] = { ...open, marks: [...open.marks, ...row.marks].sort((a, b) => compare(a.at, b.at)) };
  }
  return joined;
}
