import { type ChordLine, type ChordToken, chordTokens, isWord } from './chord-line.ts';

/** A line of words with its chords taken out, each at the column of the words that it stands over. */
export interface InlineChords {
  readonly chords: ChordLine;
  readonly words: string;
}

/**
 * Reads chords that stand in brackets inside the words: `[C]Lamps on the [G]quay`, as people write where columns would not hold. A
 * chord inside a word parts it there. Nothing where another thing stands in square brackets or no word stands outside; brackets
 * that hold no chord, as in `(hold)`, are words.
 */
export function readInlineChords(text: string): InlineChords | undefined {
  if (text.includes('|')) return undefined;
  const tokens: ChordToken[] = [];
  const doubtful: { written: string; taken: string }[] = [];
  let words = '';
  let from = 0;
  for (const { 0: whole, 1: square, 2: round, index } of text.matchAll(/\[([^[\]]*)\]|\(([^()\s]{1,12})\)/g)) {
    const name = (square ?? round ?? '').trim();
    const column = words.length + index - from;
    const isSilence = /^n\.?c\.?$/i.test(name);
    const read = isSilence ? [{ kind: 'silence' as const, column }] : chordTokens(name, column, doubtful);
    if (read === undefined || read.length !== 1) {
      if (square !== undefined) return undefined;
      continue;
    }
    words += text.slice(from, index);
    from = index + whole.length;
    const cutsWord = /\p{L}$/u.test(words) && /^\p{L}/u.test(text.slice(from));
    if (cutsWord) words += '-';
    tokens.push(...read.map((token) => ({ ...token, column: words.length })));
  }
  words += text.slice(from);
  if (tokens.length === 0 || !/\p{L}/u.test(words)) return undefined;
  const names = new Set(tokens.map((token) => (token.kind === 'chord' ? token.name : '')));
  const mayBeWords = names.size === 1 && [...names].every(isWord);
  const isFew = tokens.length === 1 && !text.includes('[');
  return { chords: { tokens, beside: [], doubtful, mayBeWords: mayBeWords || isFew }, words };
}
