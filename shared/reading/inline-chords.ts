import { type ChordLine, type ChordToken, chordTokens, isWord } from './chord-line.ts';

/** A line of words with its chords taken out, each at the column of the words that it stands over. */
export interface InlineChords {
  readonly chords: ChordLine;
  readonly words: string;
}

/**
 * Reads chords that stand in round brackets inside the words: `(C) Lamps on the (G) quay`, as people write where columns would not
 * hold. Common practice, no source. A chord inside a word parts it there. Nothing where no word stands outside; brackets that hold no
 * chord, as in `(hold)`, are words.
 */
export function readInlineChords(text: string): InlineChords | undefined {
  if (text.includes('|')) return undefined;
  const tokens: ChordToken[] = [];
  const doubtful: { written: string; taken: string }[] = [];
  let words = '';
  let from = 0;
  for (const { 0: whole, 1: name = '', index } of text.matchAll(/\(([^()\s]{1,12})\)/g)) {
    const column = words.length + index - from;
    const isSilence = /^n\.?c\.?$/i.test(name);
    const read = isSilence ? [{ kind: 'silence' as const, column }] : chordTokens(name, column, doubtful);
    if (read === undefined || read.length !== 1) continue;
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
  return { chords: { tokens, beside: [], doubtful, mayBeWords: mayBeWords || tokens.length === 1 }, words };
}
