import { toPlainSigns } from './plain-signs.ts';
import type { Line, LineKind, Token, TokenKind } from './token.ts';

const BYTE_ORDER_MARK = '\ufeff';
const TAB_WIDTH = 8;

/** Every line of an entry, each with all its tokens. The tokens' texts joined give the entry's text back, whatever it holds. */
export function scanLines(text: string): readonly Line[] {
  const lines: Line[] = [];
  let start = 0;
  do {
    const line = scanLine(text, start);
    lines.push(line);
    start = line.tokens.at(-1)?.end ?? line.end;
  } while (start < text.length);
  return lines;
}

/** Offset behind the line end that follows `from`, or the text's length. `\n`, `\r\n` and a lone `\r` all end a line. */
export function nextLineStart(text: string, from: number): number {
  for (let at = from; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 10) return at + 1;
    if (code === 13) return text.charCodeAt(at + 1) === 10 ? at + 2 : at + 1;
  }
  return text.length;
}

function scanLine(text: string, start: number): Line {
  const next = nextLineStart(text, start);
  let end = next;
  while (end > start && isLineEnd(text.charCodeAt(end - 1))) end--;

  const tokens: Token[] = [];
  const add = (kind: TokenKind, from: number, to: number): void => {
    if (to > from) tokens.push({ kind, start: from, end: to });
  };

  let at = start;
  if (text.startsWith(BYTE_ORDER_MARK, start) && start === 0) {
    add('byte-order-mark', 0, 1);
    at = 1;
  }
  const afterBlank = skipBlanks(text, at, end);
  const indent = widthOf(text, at, afterBlank);
  add('blank', at, afterBlank);
  at = afterBlank;

  let kind: LineKind = 'empty';
  if (at < end) {
    const head = toPlainSigns(text.slice(at, at + 2));
    if (head === '//') {
      kind = 'comment';
      add('comment', at, end);
    } else if (head.startsWith('>')) {
      kind = 'prose';
      add('prose-mark', at, at + 1);
      add('prose', at + 1, end);
    } else {
      kind = 'statement';
      scanWords(text, at, end, add);
    }
  }
  add('line-end', end, next);
  return { kind, start, end, indent, tokens };
}

/** Words, commas and bar signs. A comma inside parentheses belongs to its word: `C(add9,omit3)`. */
function scanWords(text: string, from: number, end: number, add: (kind: TokenKind, from: number, to: number) => void) {
  const plain = toPlainSigns(text.slice(from, end));
  const signOrBlank = /:?\|{1,2}:?|\s+|,/g;
  let wordStart = 0;
  let depth = 0;
  let counted = 0;
  for (const match of plain.matchAll(signOrBlank)) {
    for (; counted < match.index; counted++) {
      if (plain[counted] === '(') depth++;
      else if (plain[counted] === ')' && depth > 0) depth--;
    }
    const sign = match[0];
    const isBlank = sign.trim() === '';
    // A parenthesis that was never closed ends with its word, or one slip would swallow the line.
    if (isBlank) depth = 0;
    if (sign === ',' && depth > 0) continue;
    add('word', from + wordStart, from + match.index);
    wordStart = match.index + sign.length;
    add(isBlank ? 'blank' : sign === ',' ? 'comma' : 'bar-sign', from + match.index, from + wordStart);
  }
  add('word', from + wordStart, end);
}

function skipBlanks(text: string, from: number, end: number): number {
  let at = from;
  while (at < end && isBlank(text.charCodeAt(at))) at++;
  return at;
}

function widthOf(text: string, from: number, to: number): number {
  let width = 0;
  for (let at = from; at < to; at++) {
    width = text.charCodeAt(at) === 9 ? (Math.floor(width / TAB_WIDTH) + 1) * TAB_WIDTH : width + 1;
  }
  return width;
}

function isBlank(code: number): boolean {
  return code === 32 || code === 9 || (code > 127 && /\s/.test(String.fromCharCode(code)));
}

function isLineEnd(code: number): boolean {
  return code === 10 || code === 13;
}
