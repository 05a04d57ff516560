import { readBarsLine, readWordsRow } from './read-bars.ts';
import { isPlainName, readChordName } from './read-names.ts';
import { readProse } from './read-prose.ts';
import {
  afterLine,
  asksFor,
  type BlockLine,
  type Piece,
  type Reading,
  report,
  reportUnfinished,
  type WordLine,
} from './reading.ts';
import type { BarsLine, ProgressionStatement, Prose, WordsRow } from './statement.ts';
import { keywordOf, unknownLine } from './unknown-line.ts';
import type { Word } from './words.ts';

/** `progression verse`, then lines of bars, each with its words; the first line of bars may follow the name at once. */
export function readProgression(reading: Reading, line: WordLine, body: readonly BlockLine[]): ProgressionStatement {
  const [first, ...more] = line.rest;
  const name =
    first?.kind === 'word' ? readName(reading, first, 'progression', more.length + body.length === 0) : undefined;
  if (name === undefined) {
    report(
      reading,
      'hint',
      'progression.no-name',
      afterLine(line),
      'Give the progression a name, so that exercises can play it: progression verse.',
    );
  }
  const inline = first?.kind === 'bar-sign' ? line.rest : more;
  const lines: { pieces: readonly Piece[]; words: WordsRow[] }[] = [];
  if (inline.length > 0) lines.push({ pieces: inline, words: [] });
  const prose: Prose[] = [];
  let pickupCount: ProgressionStatement['pickupCount'];
  for (const said of body) {
    if (said.kind === 'prose') {
      prose.push(readProse(reading, [said.line]));
      continue;
    }
    const { keyword, rest } = said;
    const [value] = rest;
    const word = keywordOf(reading, said, 'progression');
    if (word === 'words') {
      const verse = /^[1-9]$/.test(value?.text ?? '') && rest.length > 1 ? Number(value?.text) : 1;
      const row = readWordsRow(reading, verse, verse > 1 || value?.text === '1' ? rest.slice(1) : rest, said.span);
      const above = lines.at(-1);
      if (above !== undefined) above.words.push(row);
      else
        report(
          reading,
          'error',
          'words.no-bars',
          said.span,
          'words stand under a line of bars; there is none above this line.',
        );
    } else if (word === 'count') {
      if (value !== undefined && /^\d{1,2}$/.test(value.text)) {
        pickupCount = { count: Number(value.text), span: said.span };
      } else if (!asksFor(reading, said, 'On which count does the music start? count 4')) {
        report(reading, 'error', 'count.unreadable', said.span, 'Say the count on which the music starts: count 4.');
      }
    } else if (isBars(said)) {
      lines.push({ pieces: [keyword, ...rest], words: [] });
    } else unknownLine(reading, said, 'progression');
  }
  const bars: readonly BarsLine[] = lines.map(({ pieces, words }) => readBarsLine(reading, pieces, words));
  return {
    kind: 'progression',
    keyword: line.keyword,
    span: blockSpan(line, body),
    lines: bars,
    prose,
    ...(name !== undefined ? { name } : {}),
    ...(pickupCount !== undefined ? { pickupCount } : {}),
  };
}

function isBars(line: WordLine): boolean {
  return (
    line.keyword.kind === 'bar-sign' ||
    line.rest.some((piece) => piece.kind === 'bar-sign') ||
    readChordName(line.keyword).symbol !== undefined
  );
}

/**
 * A made-up name; reports a name that would be taken for a chord, or that holds other signs. `mayGoOn` where nothing stands behind it
 * yet: a C may be on its way to Chorus.
 */
export function readName(reading: Reading, piece: Piece, what: string, mayGoOn: boolean): Word | undefined {
  if (!isPlainName(piece.text)) {
    report(
      reading,
      'error',
      'name.signs',
      piece.span,
      `The name of a ${what} is one word of letters, digits and -; ${piece.text} is not.`,
    );
    return piece.kind === 'word' ? piece : undefined;
  }
  if (readChordName(piece).symbol !== undefined) {
    const message = `${piece.text} is a chord’s name; give the ${what} another one, or the two would be mixed up.`;
    if (mayGoOn) reportUnfinished(reading, 'name.is-chord', piece.span, message);
    else report(reading, 'error', 'name.is-chord', piece.span, message);
  }
  return piece;
}

export function blockSpan(line: WordLine, body: readonly BlockLine[]): { start: number; end: number } {
  const last = body.at(-1);
  const end = last === undefined ? line.span.end : last.kind === 'prose' ? last.line.end : last.span.end;
  return { start: line.span.start, end };
}
