import type { Meter } from '../../theory/meter.ts';
import type { Rational } from '../../theory/rational.ts';
import { resolveChord } from '../model/chords.ts';
import { type CountTimes, comesRoundTo, timeCounts } from '../model/count-times.ts';
import {
  baseOf,
  type MergedCell,
  type MergedLine,
  mergedLines,
  meterOf,
  metersOfLines,
  timesOfLine,
} from '../model/grid.ts';
import { stringOfNote } from '../model/plant.ts';
import type { ResolvedChord } from '../model/resolved-chord.ts';
import type { Scope } from '../model/scope.ts';
import { type RowLabel, sameLabel } from '../model/timed-grid.ts';
import type { NoteMark } from '../syntax/marks.ts';
import type { Entry } from '../syntax/read-entry.ts';
import { readChordName } from '../syntax/read-names.ts';
import type { GridRow, GridStatement } from '../syntax/statement.ts';
import { checkNamedRows } from './check-added.ts';
import { checkFingerMarks } from './check-finger-marks.ts';
import { momentFaults, reportMoments } from './check-moments.ts';
import { checkOctaves } from './check-octave.ts';
import { checkPlaces, tellNoString } from './check-places.ts';
import { checkChordUse } from './check-progression.ts';
import { checkRing, checkRingStrings } from './check-ring.ts';
import { checkLength, runsTogether, tellNoCount } from './check-row-length.ts';
import { checkSung } from './check-sung.ts';
import { techniqueFaults } from './check-techniques.ts';
import { ABOUT_ITS_PLACE, type Report, reportUnknownName, unfinishedIf } from './finding.ts';

/** A pattern or melody: its rows fit their counts, its marks can be played on the instrument. */
export function checkGrid(report: Report, scope: Scope, statement: GridStatement): void {
  const { name, kind, like } = statement;
  if (
    name !== undefined &&
    scope.grid(kind, name.text) !== statement &&
    scope.edition().block?.statement.grids.includes(statement) !== true
  ) {
    report(
      'error',
      'name.twice',
      name.span,
      `There is a ${kind} ${name.text} already; that one is used. Give this one another name.`,
      [],
      // A name may still grow while nothing stands under it.
      unfinishedIf(statement.span.end === name.span.end),
    );
  }
  if (like !== undefined) {
    if (like.text === name?.text && scope.edition().block === undefined) {
      report('error', 'like.itself', like.span, `${like.text} cannot be like itself.`);
      return;
    }
    if (baseOf(scope, statement) === undefined)
      reportUnknownName(report, scope, like, ['pattern', 'melody'], 'pattern');
  }
  if (statement.inside !== undefined && scope.progression(statement.inside.text) === undefined) {
    reportUnknownName(report, scope, statement.inside, ['progression'], 'progression');
  }
  if (statement.contour !== undefined && statement.inside === undefined) {
    report(
      'hint',
      'melody.inside',
      statement.contour.span,
      `A tune that goes ${statement.contour.contour} needs a progression to go over: inside verse.`,
    );
  }
  checkRingStrings(report, scope, statement.ring);
  checkPlant(report, scope, statement);
  const meter = meterOf(scope, statement);
  let bar = 1;
  let roundTo: Rational | undefined;
  const meters = metersOfLines(statement.lines, meter);
  for (const [at, line] of statement.lines.entries()) {
    if (line.count === undefined) continue;
    const { faults, bars, startsAt } = timeCounts(line.count, meters[at] ?? meter, bar, roundTo);
    roundTo = comesRoundTo(line.count, startsAt, roundTo);
    for (const fault of faults) reportCount(report, fault);
    bar += bars;
  }
  const lines = mergedLines(scope, statement);
  const metersOfAll = metersOfLines(lines, meter);
  for (const [at, line] of lines.entries()) checkLine(report, scope, statement, line, metersOfAll[at] ?? meter);
  const entry = scope.entryOf(statement);
  if (entry !== undefined) checkPlaying(report, scope, statement, lines, entry);
  const empty = statement.lines.length === 0 && like === undefined && statement.inside === undefined;
  if (empty) report('hint', 'grid.empty', statement.span, `Write the count below, then a row: count 1 & 2 & 3 & 4 &.`);
}

/** The fingers rest on strings that are there. */
function checkPlant(report: Report, scope: Scope, { plant }: GridStatement): void {
  const { instrument } = scope.edition();
  const strings = instrument.openStrings.length;
  const beyond = Object.values(plant?.strings ?? {}).find((string) => string > strings);
  if (plant === undefined || beyond === undefined) return;
  report('error', 'mark.no-string', plant.span, tellNoString(instrument, beyond), [], ABOUT_ITS_PLACE);
}

/** What of a grid depends on the instrument: its strings, its frets, and what the hands can do there. */
export function checkGridOnInstrument(report: Report, scope: Scope, statement: GridStatement): void {
  checkRingStrings(report, scope, statement.ring);
  const lines = mergedLines(scope, statement);
  for (const { rows } of lines) {
    for (const { own } of rows)
      for (const cell of own?.cells ?? []) checkPlaces(report, scope.edition().instrument, cell);
  }
  const entry = scope.entryOf(statement);
  if (entry !== undefined) checkPlaying(report, scope, statement, lines, entry);
}

/** What the two hands do: everything that is told at a mark of this grid, whatever exercise plays it. */
function checkPlaying(
  report: Report,
  scope: Scope,
  statement: GridStatement,
  lines: readonly MergedLine[],
  entry: Entry,
): void {
  const plant = (statement.plant ?? baseOf(scope, statement)?.plant)?.strings;
  for (const { kind, chord: text, cells } of wholeRows(lines)) {
    const chord = text === undefined ? undefined : namedChord(scope, text);
    const fretOf = (note: NoteMark) => note.fret ?? shapeFret(scope, note, chord, plant);
    for (const { cell, severity, code, span, message, fixes, about } of techniqueFaults(kind, cells, fretOf)) {
      if (cell.entry === entry) report(severity, code, span, message, fixes, { about: [about] });
    }
  }
  const grid = scope.timed(statement);
  if (grid === undefined) return;
  // A mark too many has pushed those behind it off their times: what meets there was never meant to.
  if (!hasSurplus(scope, statement)) {
    reportMoments(report, momentFaults(scope, grid, undefined), (mark) => mark.entry === entry);
  }
  checkFingerMarks(report, scope, grid, entry);
  checkNamedRows(report, scope, grid, entry);
  checkRing(report, scope, grid, entry);
  checkOctaves(report, scope, grid, entry);
  checkSung(report, grid, entry);
}

/** True where a row has more marks than its count. */
function hasSurplus(scope: Scope, statement: GridStatement): boolean {
  const meters = metersOfLines(statement.lines, meterOf(scope, statement));
  return statement.lines.some(({ count, rows }, at) => {
    const columns = count && timeCounts(count, meters[at] ?? meterOf(scope, statement), 1).columns.length;
    return columns !== undefined && rows.some((row) => row.cells.length > columns && !runsTogether(row));
  });
}

/** Rows of one name in lines that follow each other are one row, even where its times are not known yet. */
export function wholeRows(
  lines: readonly MergedLine[],
): readonly (RowLabel & { readonly cells: readonly MergedCell[] })[] {
  const rows: (RowLabel & { cells: MergedCell[] })[] = [];
  for (const row of lines.flatMap((line) => line.rows)) {
    const open = rows.find((other) => sameLabel(other, row));
    if (open === undefined) rows.push({ ...row, cells: [...row.cells] });
    else open.cells.push(...row.cells);
  }
  return rows;
}

function namedChord(scope: Scope, text: string): ResolvedChord | undefined {
  return resolveChord(scope, readChordName({ text, span: { start: 0, end: text.length } }));
}

/** The fret that a note takes from the shape; nothing without a chord, and on a string that the chord mutes. */
export function shapeFret(
  scope: Scope,
  note: NoteMark,
  chord: ResolvedChord | undefined,
  plant: Parameters<typeof stringOfNote>[2],
): number | undefined {
  const string = chord && stringOfNote(note, chord, plant, scope.edition().instrument);
  const fret = chord === undefined || string === undefined ? undefined : chord.shape[chord.shape.length - string];
  return fret === 'muted' ? undefined : fret;
}

function reportCount(report: Report, fault: CountTimes['faults'][number]): void {
  const fixes = (fault.instead ?? []).map(({ title, text, span }) => ({ title, edits: [{ span, text }] }));
  report(fault.quiet === true ? 'hint' : 'error', fault.code, fault.span, fault.message, fixes);
}

function checkLine(report: Report, scope: Scope, statement: GridStatement, line: MergedLine, meter: Meter): void {
  const times = timesOfLine(line, meter);
  const own = line.rows.flatMap((row) => row.own ?? []);
  if (times === undefined) {
    const [first] = own;
    if (first !== undefined && first.cells.length > 0 && !runsTogether(first)) {
      report(
        'error',
        'grid.no-count',
        first.span,
        tellNoCount(first.cells.length, meter),
        [],
        unfinishedIf(first.span.end === statement.span.end),
      );
    }
    return;
  }
  for (const written of own) {
    checkLength(report, written, times, written.span.end === statement.span.end);
    checkMarks(report, scope, statement, written);
  }
}

function checkMarks(report: Report, scope: Scope, statement: GridStatement, written: GridRow): void {
  const { instrument } = scope.edition();
  const based = statement.like !== undefined;
  const told = new Set<string>();
  if (written.chord !== undefined) checkChordUse(report, scope, written.chord, told, 0);
  for (const cell of written.cells) {
    const { mark, word } = cell;
    if (mark.kind === 'keep' && !based) {
      report(
        'error',
        'mark.keeps-nothing',
        word.span,
        '= keeps the mark of the pattern that this one is like; write like and its name first.',
      );
    }
    if (mark.kind === 'chord') checkChordUse(report, scope, mark.chord, told, 0);
    checkPlaces(report, instrument, cell);
  }
}
