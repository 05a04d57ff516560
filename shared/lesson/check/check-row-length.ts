import { counted } from '../../text/counted.ts';
import { type Meter, printMeter } from '../../theory/meter.ts';
import type { CountTimes } from '../model/count-times.ts';
import type { GridRow } from '../syntax/statement.ts';
import { isRunTogether } from '../syntax/strokes-written.ts';
import { type Report, unfinishedIf } from './finding.ts';

/** What is said where a row has no count and cannot share its bar. */
export function tellNoCount(marks: number, meter: Meter): string {
  const bar = `a bar of ${printMeter(meter)}`;
  return marks === 1
    ? `1 mark does not fill ${bar}; write one for each beat, or a count line above.`
    : `${marks} marks do not share ${bar} evenly; write a count line above them.`;
}

/** A row has a mark for each count. `standsLast` where nothing is written below the row: its marks may still be coming. */
export function checkLength(report: Report, row: GridRow, times: CountTimes, standsLast: boolean): void {
  const wanted = times.columns.length;
  const has = row.cells.length;
  if (has === wanted || runsTogether(row)) return;
  if (has === 0) {
    report(
      'hint',
      'row.empty',
      row.span,
      `Write one mark for ${wanted === 1 ? 'the count' : `each of the ${wanted} counts`}; . lets the sound go on.`,
    );
  } else if (has < wanted) {
    const missing = times.columns.slice(has).map((column) => column.said || '?');
    report(
      'error',
      'row.too-short',
      row.span,
      `${counted(has, 'mark')} for ${counted(wanted, 'count')}; still to come: ${missing.join(' ')}.`,
      [],
      unfinishedIf(standsLast),
    );
  } else {
    // A mark in two pieces, as in `thumb 4`, is told where its piece cannot be read.
    if (row.cells.some(({ mark }) => mark.kind === 'faulty')) return;
    const first = row.cells[wanted];
    const last = row.cells.at(-1);
    const span = first && last ? { start: first.word.span.start, end: last.word.span.end } : row.span;
    const surplus = has - wanted;
    report(
      'error',
      'row.too-long',
      span,
      `${counted(has, 'mark')} for ${counted(wanted, 'count')}: the last ${surplus === 1 ? 'one has' : `${surplus} have`} no count.`,
    );
  }
}

/** True for `D DU UDU`: how many columns it fills is known only when its strokes are spread out, which its reader has asked for. */
export function runsTogether(row: GridRow): boolean {
  return row.kind === 'strum' && row.cells.some(({ mark, word }) => mark.kind === 'faulty' && isRunTogether(word.text));
}
