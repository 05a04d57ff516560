import { readBarSign, readEnding, readTimes } from './read-bars.ts';
import { type Reading, report, type WordLine } from './reading.ts';
import type { CountRow, CountSign, CountWord } from './statement.ts';

/** `1 & 2 &`, `1-2 la li`, with bar lines, repeats and endings between. Times are worked out later, when the meter is known. */
export function readCountRow(reading: Reading, line: WordLine): CountRow {
  const columns: CountWord[] = [];
  const signs: CountSign[] = [];
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
      `A count begins with a number; ${first.word.text} has none before it to split.`,
    );
  }
  return { span: line.span, keyword: line.keyword, columns, signs };
}
