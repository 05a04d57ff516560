import { chordReadings, parseChordSymbol } from '../theory/chord-symbol.ts';
import { parseMeter } from '../theory/meter.ts';

/** A word of a line of chords, and where it stands. */
export type ChordToken = { readonly column: number } & (
  | { readonly kind: 'chord'; readonly name: string }
  | { readonly kind: 'bar'; readonly sign: string }
  /** One more beat of the chord before it. */
  | { readonly kind: 'beat' }
  | { readonly kind: 'same' }
  | { readonly kind: 'silence' }
  | { readonly kind: 'times'; readonly times: number }
  | { readonly kind: 'meter'; readonly text: string }
  | { readonly kind: 'ending'; readonly text: string }
);

export interface ChordLine {
  readonly tokens: readonly ChordToken[];
  /** `Intro:` before the chords, and what stands in parentheses behind them. */
  readonly beside: readonly string[];
  /** Names that are written for two chords, and which of them was taken. */
  readonly doubtful: readonly { readonly written: string; readonly taken: string }[];
  /** True where every chord could be a word, as in `A` and `Am`: only what stands around the line can tell. */
  readonly mayBeWords: boolean;
}

/** Names of chords that are words of a sentence as well. */
const WORDS: ReadonlySet<string> = new Set(['A', 'Am', 'Do', 'Go', 'Ado', 'Ago', 'Co', 'Ad', 'Bo', 'Add', 'Fo']);

/** True for `A` and the like. */
export function isWord(name: string): boolean {
  return WORDS.has(name);
}

/** The line as chords, or nothing where any word of it is something else. */
export function readChordLine(text: string): ChordLine | undefined {
  const beside: string[] = [];
  let line = text;
  const label = /^\s*([A-Za-z][A-Za-z -]{1,20}\d{0,2}(?:\s*\d)?\s*:)(?=\s)(?!\|)/.exec(line);
  if (
    label?.[1] !== undefined &&
    !/^(?:tuning|tuned|strings|capo|key|keys|tempo|chords|scale)\b/i.test(label[1].trim())
  ) {
    beside.push(label[1].trim());
    line = ' '.repeat(label[0].length) + line.slice(label[0].length);
  }
  const behind = /\s\(([^()]{3,60})\)\s*$/.exec(line);
  if (behind?.[1] !== undefined && !/^\s*(?:x\s*\d+|\d+\s*x)\s*$/i.test(behind[1]) && !isChords(behind[1])) {
    beside.push(`(${behind[1]})`);
    line = line.slice(0, behind.index);
  }
  const hasBars = line.includes('|');
  const tokens: ChordToken[] = [];
  const doubtful: { written: string; taken: string }[] = [];
  for (const { 0: word, index } of line.matchAll(/:?\|+:?|[^\s|]+(?<!:)|:/g)) {
    const before = tokens.at(-1);
    const read = readToken(word, index, hasBars, before?.kind === 'bar', doubtful);
    if (read === undefined) return undefined;
    tokens.push(...read);
  }
  const chords = tokens.flatMap((token) => (token.kind === 'chord' ? [token.name] : []));
  if (chords.length === 0 && !(hasBars && tokens.some(({ kind }) => kind === 'same' || kind === 'silence'))) {
    return undefined;
  }
  const mayBeWords = !hasBars && chords.every(isWord) && tokens.length === chords.length;
  return { tokens, beside, doubtful, mayBeWords };
}

function isChords(text: string): boolean {
  return text.split(/[\s,]+/).every((word) => word === '' || chordReadings(word).length > 0);
}

function readToken(
  word: string,
  column: number,
  hasBars: boolean,
  afterBar: boolean,
  doubtful: { written: string; taken: string }[],
): readonly ChordToken[] | undefined {
  if (word.includes('|')) return [{ kind: 'bar', sign: barSign(word), column }];
  const times = /^[([]?(?:x(\d{1,2})|(\d{1,2})x)[)\]]?$/i.exec(word);
  if (times !== null) return [{ kind: 'times', times: Number(times[1] ?? times[2]), column }];
  if (/^\/+$/.test(word)) return [...word].map((_, at) => ({ kind: 'beat', column: column + at }));
  if (/^(?:%|\.\/\.|:\/:|\/\.)$/.test(word)) return [{ kind: 'same', column }];
  if (/^\(?n\.?\s?c\.?\)?$/i.test(word)) return [{ kind: 'silence', column }];
  if (/^(?:-{1,3}|\.{1,3}|,|>|->|\*)$/.test(word)) {
    return hasBars && /^[-.]+$/.test(word) ? [...word].map((_, at) => ({ kind: 'beat', column: column + at })) : [];
  }
  if (parseMeter(word) !== undefined) return [{ kind: 'meter', text: word, column }];
  const ending = /^([1-9])(?:\.|st|nd|rd|th)$/.exec(word);
  if (ending?.[1] !== undefined && hasBars && afterBar)
    return [{ kind: 'ending', text: ordinal(Number(ending[1])), column }];
  return chordTokens(word, column, doubtful);
}

/** One chord, or several joined by dashes; nothing where the word is none. */
export function chordTokens(
  word: string,
  column: number,
  doubtful: { written: string; taken: string }[],
): readonly ChordToken[] | undefined {
  const bare = word.replace(/^[([](?=.*[)\]]$)/, '').replace(/[,;*…]+$|\.{2,}$/, '');
  const unwrapped = bare.length < word.length ? bare.replace(/[)\]]$/, '') : bare;
  for (const name of new Set([word, bare, unwrapped])) {
    const [first, ...others] = chordReadings(name);
    if (first === undefined) continue;
    if (others.length > 0) doubtful.push({ written: name, taken: first.text });
    return [{ kind: 'chord', name: others.length > 0 ? plainName(first.text, name) : name, column }];
  }
  if (!/^[A-G][^-]*(?:-[A-G][^-]*)+$/.test(word)) return undefined;
  const joined: ChordToken[] = [];
  let at = column;
  for (const name of word.split('-')) {
    if (!parseChordSymbol(name).ok) return undefined;
    joined.push({ kind: 'chord', name, column: at });
    at += name.length + 1;
  }
  return joined;
}

function plainName(taken: string, written: string): string {
  return parseChordSymbol(taken).ok ? taken : written;
}

function barSign(sign: string): string {
  const opens = sign.endsWith(':');
  const closes = sign.startsWith(':');
  return opens && closes ? ':|:' : opens ? '|:' : closes ? ':|' : sign.length > 1 ? '||' : '|';
}

function ordinal(number: number): string {
  return `${number}${number === 1 ? 'st' : number === 2 ? 'nd' : number === 3 ? 'rd' : 'th'}`;
}
