import type { Entry } from '../syntax/read-entry.ts';
import type { Line, Token } from '../syntax/token.ts';

/** A line and its words as typed. */
export interface RawLine {
  readonly line: Line;
  readonly words: readonly RawWord[];
}

export interface RawWord {
  readonly kind: Token['kind'];
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

/** What a line becomes, without its line end. */
export interface LaidLine {
  readonly line: Line;
  readonly text: string;
}

export function linesToLayOut(entry: Entry): readonly RawLine[] {
  return entry.lines.map((line) => ({
    line,
    words: line.tokens
      .filter(({ kind }) => kind === 'word' || kind === 'comma' || kind === 'bar-sign')
      .map(({ kind, start, end }) => ({ kind, start, end, text: entry.text.slice(start, end) })),
  }));
}

/** Words with one blank between them; a comma stands right behind its word. */
export function joinWords(words: readonly string[]): string {
  return words.reduce((text, word) => (text === '' || word === ',' ? text + word : `${text} ${word}`), '');
}

/** The text from the first word to the last as typed. */
export function sliceOf(entry: Entry, words: readonly RawWord[]): string {
  const first = words[0];
  const last = words.at(-1);
  return first === undefined || last === undefined ? '' : entry.text.slice(first.start, last.end);
}

/** A comment, prose or empty line at its step, otherwise as typed. */
export function indented(entry: Entry, raw: RawLine, step: number): LaidLine {
  const first = raw.line.tokens.find((token) => token.kind === 'comment' || token.kind === 'prose-mark');
  if (first === undefined)
    return {
      line: raw.line,
      text: raw.line.kind === 'empty' ? '' : entry.text.slice(raw.line.start, raw.line.end).trimEnd(),
    };
  return { line: raw.line, text: ' '.repeat(step) + entry.text.slice(first.start, raw.line.end).trimEnd() };
}
