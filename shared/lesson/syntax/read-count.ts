import { parseMeter } from '../../theory/meter.ts';
import { readBarSign, readEnding, readTimes } from './read-bars.ts';
import { type Piece, type Reading, replacing, report, type WordLine } from './reading.ts';
import type { CountRow, CountSign, CountWord } from './statement.ts';

/** `1 & 2 &`, `1-2 la li`, with bar lines, repeats, endings and other meters between, as in `1 2 3 4 | 2/4 1 2`. Times are worked out later, when the meter is known. */
export function readCountRow(reading: Reading, line: WordLine): CountRow {
  const columns: CountWord[] = [];
  const signs: CountSign[] = [];
  const meters: CountRow['meters'][number][] = [];
  for (const piece of line.rest) {
    if (piece.kind === 'comma') continue;
    if (piece.kind === 'bar-sign') {
      signs.push({ sign: readBarSign(piece), column: columns.length });
      continue;
    }
    const last = signs.at(-1);
    if (last !== undefined && last.column === columns.length) {
      const ending = readEnding(piece);
      const times = readTimes(piece);
      if (ending !== undefined || times !== undefined) {
        signs[signs.length - 1] = { ...last, ...(ending ? { ending } : {}), ...(times !== undefined ? { times } : {}) };
        continue;
      }
    }
    const meter = parseMeter(piece.text);
    if (meter !== undefined && (columns.length === 0 || last?.column === columns.length)) {
      meters.push({ meter: { meter, span: piece.span }, column: columns.length });
      continue;
    }
    if (outOfPlace(reading, piece)) continue;
    const number = /^(\d{1,2})(?:-(\d{1,2}))?$/.exec(piece.text);
    if (number === null) columns.push({ word: piece });
    else {
      const from = Number(number[1]);
      const to = number[2] === undefined ? from : Number(number[2]);
      if (to < from || from === 0) {
        report(
          reading,
          'error',
          'count.order',
          piece.span,
          `${piece.text} counts backwards; counts go up from 1 in every bar.`,
        );
        columns.push({ word: piece, counts: [Math.max(from, 1), Math.max(from, 1)] });
      } else columns.push({ word: piece, counts: [from, to] });
    }
  }
  const first = columns[0];
  if (first !== undefined && first.counts === undefined) {
    report(
      reading,
      'error',
      'count.start',
      first.word.span,
      `A count begins with a number; ${first.word.text} has none before it to split. Name the count that it belongs to, as in 4 ${first.word.text}, with a mark for each.`,
    );
  }
  return { span: line.span, keyword: line.keyword, columns, signs, meters };
}

/** An ending that no bar line stands before, or `x3` that no repeat does: told with the way out, and counted as nothing. */
function outOfPlace(reading: Reading, piece: Piece): boolean {
  const { text, span } = piece;
  if (readEnding(piece) !== undefined) {
    const message = `An ending begins behind a bar line: | ${text}.`;
    report(reading, 'error', 'count.ending', span, message, replacing(span, `| ${text}`));
    return true;
  }
  if (readTimes(piece) === undefined) return false;
  const message = `${text} says how often a repeat is played, and stands behind it: :| ${text}.`;
  report(reading, 'error', 'count.times', span, message, replacing(span, `:| ${text}`));
  return true;
}
