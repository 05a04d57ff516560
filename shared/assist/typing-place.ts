import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { Line, Token } from '../lesson/syntax/token.ts';
import type { Span } from '../text/span.ts';

/** Where the teacher is typing, told by the line alone. Spans count from the start of the entry. */
export interface TypingPlace {
  readonly line: Line;
  /** `head`: the first word of a line; `value`: behind it; `mention`: behind `@` in prose. */
  readonly kind: 'head' | 'value' | 'mention';
  /** The word being typed; empty where none has begun. */
  readonly word: Span;
  /** What is typed of it, up to the cursor. */
  readonly typed: string;
  /** From the first word behind the keyword to the end of the line's words. */
  readonly value: Span;
  /** The words of the line in front of the one being typed, the keyword first, bar signs among them. */
  readonly before: readonly string[];
  /** True where the cursor stands at the left margin or in its word. */
  readonly atMargin: boolean;
}

/** Undefined in comments, in prose that is no mention, and behind the end of the entry. */
export function placeOf(entry: Entry, at: number): TypingPlace | undefined {
  const line = entry.lines.find((candidate) => at >= candidate.start && at <= candidate.end) ?? lastLine(entry, at);
  if (line === undefined || line.kind === 'comment') return undefined;
  if (line.kind === 'prose') return mentionPlace(entry, line, at);
  const words = line.tokens.filter((token) => token.kind === 'word' || token.kind === 'bar-sign');
  const open =
    words.find((token) => token.kind === 'word' && at > token.start && at <= token.end) ??
    words.find((token) => token.kind === 'word' && at === token.start);
  const word: Span = open ?? { start: at, end: at };
  const before = words
    .filter((token) => token !== open && token.end <= at)
    .map((token) => entry.text.slice(token.start, token.end));
  return {
    line,
    kind: before.length === 0 ? 'head' : 'value',
    word: { start: word.start, end: word.end },
    typed: entry.text.slice(word.start, at),
    value: valueSpan(words, at),
    before,
    atMargin: word.start === line.start || (line.start === 0 && entry.text.slice(0, word.start) === '\ufeff'),
  };
}

/** The empty line behind the last line end of a lesson, where the teacher goes on typing; it has no characters, so the scan has no line for it. */
function lastLine(entry: Entry, at: number): Line | undefined {
  return at === entry.text.length ? { kind: 'empty', start: at, end: at, indent: 0, tokens: [] } : undefined;
}

function valueSpan(words: readonly Token[], at: number): Span {
  const first = words[1];
  const last = words.at(-1);
  return first === undefined || last === undefined || first.start > at
    ? { start: at, end: at }
    : { start: first.start, end: Math.max(at, last.end) };
}

function mentionPlace(entry: Entry, line: Line, at: number): TypingPlace | undefined {
  const text = entry.text.slice(line.start, at);
  const sign = text.lastIndexOf('@');
  if (sign < 0 || /\s/.test(text.slice(sign)) || /[\p{L}\p{N}]$/u.test(text.slice(0, sign))) return undefined;
  const start = line.start + sign + 1;
  const rest = /^[^\s,.;:!?]*/.exec(entry.text.slice(at, line.end))?.[0] ?? '';
  const word = { start, end: at + rest.length };
  return { line, kind: 'mention', word, typed: entry.text.slice(start, at), value: word, before: [], atMargin: false };
}
