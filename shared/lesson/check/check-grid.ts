import type { Instrument } from '../../neck/instrument.ts';
import type { Span } from '../../text/span.ts';
import { printMeter } from '../../theory/meter.ts';
import { type CountTimes, timeCounts } from '../model/count-times.ts';
import { baseOf, type MergedLine, type MergedRow, mergedLines, meterOf, timesOfLine } from '../model/grid.ts';
import type { Scope } from '../model/scope.ts';
import type { Mark, NoteMark, Technique } from '../syntax/marks.ts';
import type { GridRow, GridStatement } from '../syntax/statement.ts';
import { article } from './beyond-neck.ts';
import { checkChordUse } from './check-progression.ts';
import { type Report, reportUnknownName } from './finding.ts';

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
  const meter = meterOf(scope, statement);
  for (const line of statement.lines) {
    if (line.count !== undefined) for (const fault of timeCounts(line.count, meter).faults) reportCount(report, fault);
  }
  for (const line of mergedLines(scope, statement)) checkLine(report, scope, statement, line);
  const empty = statement.lines.length === 0 && like === undefined && statement.inside === undefined;
  if (empty) report('hint', 'grid.empty', statement.span, `Write the count below, then a row: count 1 & 2 & 3 & 4 &.`);
}

function reportCount(report: Report, fault: CountTimes['faults'][number]): void {
  const fixes = (fault.instead ?? []).map(({ title, text, span }) => ({ title, edits: [{ span, text }] }));
  report(fault.quiet === true ? 'hint' : 'error', fault.code, fault.span, fault.message, fixes);
}

function checkLine(report: Report, scope: Scope, statement: GridStatement, line: MergedLine): void {
  const meter = meterOf(scope, statement);
  const times = timesOfLine(line, meter);
  const own = line.rows.flatMap((row) => (row.own === undefined ? [] : [{ row, own: row.own }]));
  if (times === undefined) {
    const first = own[0]?.own;
    if (first !== undefined && first.cells.length > 0 && !runsTogether(first)) {
      report(
        'error',
        'grid.no-count',
        first.span,
        `${first.cells.length} marks do not share a bar of ${printMeter(meter)} evenly; write a count line above them.`,
      );
    }
    return;
  }
  for (const { row, own: written } of own) {
    checkLength(report, written, times);
    checkMarks(report, scope, statement, row, written);
  }
  checkHits(report, line);
}

function checkLength(report: Report, row: GridRow, times: CountTimes): void {
  const wanted = times.columns.length;
  const has = row.cells.length;
  if (has === wanted || runsTogether(row)) return;
  if (has === 0) {
    report('hint', 'row.empty', row.span, `Write one mark for each of the ${wanted} counts; . lets the sound go on.`);
  } else if (has < wanted) {
    const missing = times.columns.slice(has).map((column) => column.said || '?');
    report(
      'error',
      'row.too-short',
      row.span,
      `${has} marks for ${wanted} counts; still to come: ${missing.join(' ')}.`,
    );
  } else {
    const first = row.cells[wanted];
    const last = row.cells.at(-1);
    const span = first && last ? { start: first.word.span.start, end: last.word.span.end } : row.span;
    const surplus = has - wanted;
    report(
      'error',
      'row.too-long',
      span,
      `${has} marks for ${wanted} counts: the last ${surplus === 1 ? 'one has' : `${surplus} have`} no count.`,
    );
  }
}

/** True for `D DU UDU`: how many columns it fills is known only when its strokes are spread out, which its reader has asked for. */
function runsTogether(row: GridRow): boolean {
  return (
    row.kind === 'strum' && row.cells.some(({ mark, word }) => mark.kind === 'faulty' && /^[DU]{2,}$/i.test(word.text))
  );
}

function checkMarks(report: Report, scope: Scope, statement: GridStatement, row: MergedRow, written: GridRow): void {
  const { instrument } = scope.edition();
  const based = statement.like !== undefined;
  const told = new Set<string>();
  if (written.chord !== undefined) checkChordUse(report, scope, written.chord, told, 0);
  let before: NoteMark | undefined;
  written.cells.forEach((cell, index) => {
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
    if (mark.kind === 'technique' && before === undefined && !earlierNote(row, index)) {
      report(
        'error',
        'technique.nothing-before',
        word.span,
        `${word.text} goes on from a note; there is none before it in this row.`,
      );
    }
    if (mark.kind === 'technique' && before?.fret !== undefined) {
      checkDirection(report, word.span, before.fret, mark.technique);
      // The next one goes on from where this one arrived.
      if ('fret' in mark.technique) before = { ...before, fret: mark.technique.fret };
    }
    const strings = instrument.openStrings.length;
    const beyond = stringsOf(mark).find((string) => string > strings);
    if (beyond !== undefined) {
      const has = `${article(instrument.kind)} has ${strings} strings`.replace(/^a/, 'A');
      report('error', 'mark.no-string', word.span, `${has}; there is no string ${beyond}.`);
    }
    if (mark.kind === 'notes') {
      for (const note of mark.notes) checkNote(report, instrument, note);
      before = mark.notes.at(-1);
    }
  });
}

function earlierNote(row: MergedRow, index: number): boolean {
  return row.cells.slice(0, index).some((cell) => cell.mark.kind === 'notes');
}

function checkNote(report: Report, instrument: Instrument, note: NoteMark): void {
  const last = instrument.frets - instrument.capoFret;
  if (note.fret !== undefined && note.fret > last) {
    report(
      'error',
      'mark.fret-beyond-neck',
      note.span,
      `Fret ${note.fret} is beyond the neck: ${article(instrument.kind)} has ${last} frets.`,
    );
  }
  let fret = note.fret;
  for (const technique of note.techniques) {
    if (fret !== undefined) checkDirection(report, note.span, fret, technique);
    if ('fret' in technique) fret = technique.fret;
  }
}

/** A hammer-on goes up, a pull-off goes down, a slide needs a stopped string to start from. Common practice, no source. */
function checkDirection(report: Report, span: Span, from: number, technique: Technique): void {
  if (technique.kind === 'hammer-on' && technique.fret <= from) {
    report(
      'error',
      'technique.direction',
      span,
      `A hammer-on goes up, a pull-off goes down: from fret ${from} to ${technique.fret} ${technique.fret === from ? 'nothing moves' : 'is a pull-off'}.`,
    );
  } else if (technique.kind === 'pull-off' && technique.fret >= from) {
    report(
      'error',
      'technique.direction',
      span,
      `A hammer-on goes up, a pull-off goes down: from fret ${from} to ${technique.fret} ${technique.fret === from ? 'nothing moves' : 'is a hammer-on'}.`,
    );
  } else if (technique.kind === 'slide' && technique.fret === from) {
    report('error', 'technique.direction', span, `A slide from fret ${from} to fret ${from} does not move.`);
  } else if (technique.kind === 'slide' && from === 0) {
    report(
      'warning',
      'technique.slide-from-open',
      span,
      'An open string is held by no finger, so nothing can slide from it.',
    );
  }
}

function stringsOf(mark: Mark): readonly number[] {
  switch (mark.kind) {
    case 'notes':
      return mark.notes.flatMap((note) => (note.string === undefined ? [] : [note.string]));
    case 'strum':
      return mark.strings ?? [];
    case 'stop':
      return mark.strings;
    case 'hit':
      return mark.string === undefined ? [] : [mark.string];
    default:
      return [];
  }
}

/** A hand that slaps or damps the strings cannot strum all of them in the same moment; tapping wood or nails can. */
function checkHits(report: Report, line: MergedLine): void {
  const hits = line.rows.filter((row) => row.kind === 'hit');
  const strums = line.rows.filter((row) => row.kind === 'strum');
  for (const hit of hits) {
    hit.cells.forEach((cell, index) => {
      if (
        cell.mark.kind !== 'hit' ||
        cell.mark.place === 'body' ||
        cell.mark.place === 'nails' ||
        hit.own === undefined
      )
        return;
      const strum = strums.map((row) => row.cells[index]?.mark).find((mark) => mark?.kind === 'strum');
      if (strum?.kind === 'strum' && strum.strings === undefined) {
        report(
          'error',
          'hit.with-strum',
          cell.word.span,
          `${cell.word.text} damps the strings in the very moment that they are strummed; move one of the two.`,
        );
      }
    });
  }
}
