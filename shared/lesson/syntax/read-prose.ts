import type { Reading } from './reading.ts';
import type { Prose } from './statement.ts';
import type { Line } from './token.ts';
import type { Word } from './words.ts';

/** Behind `@`, up to the next blank: as far as a mention could reach. A letter before the sign makes it an address, not a mention. */
const MENTION = /(?<![\p{L}\p{N}])@([\p{L}\p{N}(][^\s@]*)/gu;

/** Prose lines that follow each other, as one paragraph or, where a line holds nothing but its mark, several. */
export function readProse(reading: Reading, lines: readonly Line[]): Prose {
  const words: Word[] = [];
  const mentions: Word[] = [];
  for (const line of lines) {
    const prose = line.tokens.find((token) => token.kind === 'prose');
    const mark = line.tokens.find((token) => token.kind === 'prose-mark');
    const start = prose?.start ?? mark?.end ?? line.end;
    const text = reading.text.slice(start, line.end);
    words.push({ text, span: { start, end: line.end } });
    for (const match of text.matchAll(MENTION)) {
      const from = start + match.index + 1;
      const name = match[1] ?? '';
      mentions.push({ text: name, span: { start: from, end: from + name.length } });
    }
  }
  const first = lines[0];
  const last = lines.at(-1);
  const markStart = first?.tokens.find((token) => token.kind === 'prose-mark')?.start;
  return {
    span: { start: markStart ?? first?.start ?? 0, end: last?.end ?? 0 },
    lines: words,
    mentions,
  };
}
