import type { Fix, Problem, Severity } from '../../text/problem.ts';
import type { Span } from '../../text/span.ts';
import { toPlainSigns } from './plain-signs.ts';
import type { Line } from './token.ts';
import type { Word } from './words.ts';

/** A word, comma or bar sign of a statement line, blanks left out. */
export interface Piece extends Word {
  readonly kind: 'word' | 'comma' | 'bar-sign';
}

/** A statement line taken apart: its first word is the keyword. */
export interface WordLine {
  readonly indent: number;
  readonly span: Span;
  readonly keyword: Piece;
  /** What stands behind the keyword. */
  readonly rest: readonly Piece[];
}

/** A line of a block: either words or prose. Empty lines and comments are left out. */
export type BlockLine =
  | ({ readonly kind: 'words' } & WordLine)
  | { readonly kind: 'prose'; readonly indent: number; readonly line: Line };

/** One entry while it is read: its text, and the problems found so far. Belongs to a single call of `readEntry`. */
export interface Reading {
  readonly text: string;
  readonly problems: Problem[];
}

export function report(
  reading: Reading,
  severity: Severity,
  code: string,
  span: Span,
  message: string,
  fixes: readonly Fix[] = [],
): void {
  reading.problems.push({ code, span, severity, message, ...(fixes.length > 0 ? { fixes } : {}) });
}

/** Tells of what is only half typed: a mistake when it is handed out, and said quietly to whoever is typing it. */
export function reportUnfinished(
  reading: Reading,
  code: string,
  span: Span,
  message: string,
  fixes: readonly Fix[] = [],
): void {
  reading.problems.push({
    code,
    span,
    severity: 'error',
    message,
    unfinished: true,
    ...(fixes.length > 0 ? { fixes } : {}),
  });
}

/** One fix that writes `text` in place of the span. */
export function replacing(span: Span, text: string, title = `Write ${text}`): readonly Fix[] {
  return [{ title, edits: [{ span, text }], preferred: true }];
}

/** The lines of a block that say something, in order. */
export function blockLines(reading: Reading, lines: readonly Line[]): readonly BlockLine[] {
  const said: BlockLine[] = [];
  for (const line of lines) {
    if (line.kind === 'prose') said.push({ kind: 'prose', indent: line.indent, line });
    else if (line.kind === 'statement') {
      const pieces = piecesOf(reading.text, line);
      const [keyword, ...rest] = pieces;
      if (keyword === undefined) continue;
      const span = { start: keyword.span.start, end: pieces.at(-1)?.span.end ?? keyword.span.end };
      said.push({ kind: 'words', indent: line.indent, span, keyword, rest });
    }
  }
  return said;
}

function piecesOf(text: string, line: Line): readonly Piece[] {
  const pieces: Piece[] = [];
  for (const token of line.tokens) {
    if (token.kind !== 'word' && token.kind !== 'comma' && token.kind !== 'bar-sign') continue;
    pieces.push({
      kind: token.kind,
      text: toPlainSigns(text.slice(token.start, token.end)),
      span: { start: token.start, end: token.end },
    });
  }
  return pieces;
}

/** Everything behind the keyword as one text, blanks inside kept: titles, instruments. Undefined when nothing stands there. */
export function phraseOf(reading: Reading, rest: readonly Piece[]): Word | undefined {
  const first = rest[0];
  const last = rest.at(-1);
  if (first === undefined || last === undefined) return undefined;
  const span = { start: first.span.start, end: last.span.end };
  return { text: toPlainSigns(reading.text.slice(span.start, span.end)), span };
}

/** The value as the teacher typed it, quotes and dashes untouched: for what is printed. */
export function titleOf(reading: Reading, rest: readonly Piece[]): Word | undefined {
  const value = phraseOf(reading, rest);
  return value && { text: reading.text.slice(value.span.start, value.span.end), span: value.span };
}

/** Asks quietly for what is missing where a line ends behind its keyword: half-typed is not wrong. True when it asked. */
export function asksFor(reading: Reading, line: WordLine, question: string): boolean {
  if (line.rest.length > 0) return false;
  report(reading, 'hint', `${line.keyword.text.toLowerCase()}.empty`, afterLine(line), question);
  return true;
}

/** The empty place behind a line's last word, where what is missing would stand. */
export function afterLine(line: WordLine): Span {
  return { start: line.span.end, end: line.span.end };
}
