import { TICKS_OF_COUNT } from './tick.ts';

/** A word of a count, or the first sound of a rhythm letter: where it stands in its line and when it is said. */
export interface SaidAt {
  readonly column: number;
  /** Bars from 0, as the count has them. */
  readonly bar: number;
  /** From the start of its bar. */
  readonly tick: number;
  /** Ticks until the next word. */
  readonly length: number;
}

export interface CountLine {
  readonly said: readonly SaidAt[];
  /** The highest number that is said: counts in a bar. */
  readonly counts: number;
  readonly bars: number;
}

interface CountToken {
  readonly column: number;
  readonly text: string;
  readonly from?: number;
  readonly to?: number;
}

const MOST_COUNTS = 16;

/** Reads `1 & 2 &`, `1+2+3+4+`, `1 e & a`, `1-2 la li`, with bar lines or without. Nothing where the line is no count. */
export function readCountLine(text: string): CountLine | undefined {
  const tokens = tokensOf(text);
  if (tokens === undefined) return undefined;
  const said: SaidAt[] = [];
  let expected = tokens[0]?.from ?? 1;
  let bar = 0;
  let counts = 0;
  for (let index = 0; index < tokens.length; ) {
    const { from, to } = tokens[index] ?? {};
    if (from === undefined || to === undefined) return undefined;
    if (from !== expected) {
      if (from !== 1) return undefined;
      bar += 1;
    }
    let parts = 1;
    while (tokens[index + parts] !== undefined && tokens[index + parts]?.from === undefined) parts += 1;
    const length = ((to - from + 1) * TICKS_OF_COUNT) / parts;
    for (let part = 0; part < parts; part += 1) {
      const column = tokens[index + part]?.column ?? 0;
      said.push({ column, bar, tick: Math.round((from - 1) * TICKS_OF_COUNT + part * length), length });
    }
    counts = Math.max(counts, to);
    expected = to + 1;
    index += parts;
  }
  return { said, counts, bars: bar + 1 };
}

/** The words, or nothing where they cannot be a count: it has two numbers at least, and little between them. */
function tokensOf(text: string): readonly CountToken[] | undefined {
  const tokens: CountToken[] = [];
  let numbers = 0;
  for (const { 0: word, index } of text.matchAll(/\d{1,2}-\d{1,2}(?![-\d])|\d+|&|\+|[A-Za-z]+|\S/g)) {
    if (/^[|:.\-_,]$/.test(word)) continue;
    const range = /^(\d{1,2})(?:-(\d{1,2}))?$/.exec(word);
    if (range === null) {
      for (const token of syllables(word, index) ?? [undefined]) {
        if (token === undefined || numbers === 0) return undefined;
        tokens.push(token);
      }
      continue;
    }
    const from = Number(range[1]);
    const to = Number(range[2] ?? range[1]);
    if (from < 1 || to < from || to > MOST_COUNTS) return undefined;
    numbers += 1;
    tokens.push({ column: index, text: word, from, to });
  }
  const isCount = numbers >= 2 || (numbers === 1 && tokens.length >= 3 && tokens[0]?.from === 1);
  return isCount && tokens.length <= numbers * MOST_COUNTS ? tokens : undefined;
}

/** What is said between two counts: `&`, `e`, `la`; run together as in `1e&a` each letter is a word. */
function syllables(word: string, index: number): readonly CountToken[] | undefined {
  if (/^(?:[&+]|[a-z]{1,4})$/i.test(word)) return [{ column: index, text: word }];
  return undefined;
}
