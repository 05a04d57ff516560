import type { Meter } from '../theory/meter.ts';
import { barsOfLine, type ChordBar, withMeters } from './chord-bars.ts';
import type { ChordLine } from './chord-line.ts';
import { cutWords, wordsLine } from './sung-words.ts';

/** A line of a song: chords, with what is sung to them, or a remark between. */
export type SongLine =
  | { readonly kind: 'chords'; readonly chords: ChordLine; readonly words?: string }
  | { readonly kind: 'remark'; readonly text: string };

export interface WrittenBlock {
  /** Lines that stand above the statement, at the left margin. */
  readonly above: readonly string[];
  /** The statement with its indented lines. */
  readonly lines: readonly string[];
}

interface Line {
  readonly bars: readonly ChordBar[];
  /** A piece for each bar. */
  words: readonly string[];
  /** What is sung before the first chord. */
  readonly before: string;
}

/** A song as a `progression`. Where no bar lines and no strokes say how long a chord lasts, it has a bar, and a remark says so. */
export function printProgression(name: string, song: readonly SongLine[], meter: Meter): WrittenBlock {
  const lines = song.map((line): Line | string => (line.kind === 'remark' ? `  // ${line.text}` : lineOf(line, meter)));
  const music = lines.filter((line): line is Line => typeof line !== 'string');
  const bars = withMeters(settled(music.flatMap((line) => line.bars)), meter);
  const hasPickup = startsBefore(music[0]) && bars[0]?.meter === undefined && meter.counts > 1;
  giveBack(music, hasPickup);
  let at = 0;
  const body: string[] = hasPickup ? [`  count  ${meter.counts}`] : [];
  for (const line of lines) {
    if (typeof line === 'string') {
      body.push(line);
      continue;
    }
    const own = bars.slice(at, at + line.bars.length);
    const isPickup = hasPickup && line === music[0];
    at += line.bars.length;
    body.push(`  ${isPickup ? '| NC ' : ''}${printBars(own)}`);
    const words = wordsLine(isPickup ? [line.before, ...line.words] : line.words);
    if (words !== undefined) body.push(`  ${words}`);
  }
  const isGuess = song.some((line) => line.kind === 'chords' && !saysLengths(line.chords));
  const guess =
    '// A guess: the text does not say how long a chord lasts; each has a bar. Take this line out when it is right.';
  const doubtful = song.flatMap((line) => (line.kind === 'chords' ? line.chords.doubtful : []));
  const asked = [...new Map(doubtful.map((one) => [one.written, one])).values()].map(
    ({ written, taken }) => `// ${written} is written for two chords; ${taken} is taken here.`,
  );
  return { above: [...(isGuess ? [guess] : []), ...asked], lines: [`progression  ${name}`, ...body] };
}

function saysLengths({ tokens }: ChordLine): boolean {
  return tokens.some(({ kind }) => kind === 'bar' || kind === 'beat');
}

function startsBefore(line: Line | undefined): boolean {
  return line !== undefined && line.before !== '';
}

function lineOf({ chords, words = '' }: Extract<SongLine, { kind: 'chords' }>, meter: Meter): Line {
  const bars = barsOfLine(chords, meter);
  const startsDrawn = chords.tokens[0]?.kind === 'bar';
  const [before = '', ...pieces] = cutWords(
    words,
    bars.map(({ column }, index) => (index === 0 && startsDrawn ? 0 : column)),
  );
  return { bars, words: pieces, before };
}

/** What is sung before the first chord of a line belongs to the last bar of the line before, or to its own first one. */
function giveBack(lines: readonly Line[], firstIsPickup: boolean): void {
  lines.forEach((line, index) => {
    if (line.before === '' || (index === 0 && firstIsPickup)) return;
    const taker = lines[index - 1] ?? line;
    const pieces = taker.bars.map((_, bar) => taker.words[bar] ?? '');
    const place = taker === line ? 0 : pieces.length - 1;
    const said = taker === line ? [line.before, pieces[0]] : [pieces[place], line.before];
    pieces[place] = said.filter((part) => part !== undefined && part !== '').join(' ');
    taker.words = pieces;
  });
}

/** `%` stands alone and never first; where the text has it otherwise, the chord is named. */
function settled(bars: readonly ChordBar[]): readonly ChordBar[] {
  let sounding = 'NC';
  return bars.map((bar, index) => {
    const alone = bar.items.length === 1 && index > 0;
    const items = bar.items.map((item) => (item === '%' && !alone ? sounding : item));
    sounding = items.findLast((item) => item !== '/' && item !== '%') ?? sounding;
    return { ...bar, items };
  });
}

function printBars(bars: readonly ChordBar[]): string {
  let text = bars[0]?.opens === true ? '|:' : '|';
  bars.forEach((bar, index) => {
    const next = bars[index + 1];
    const head = [bar.ending, bar.meter, ...bar.items].filter((word) => word !== undefined);
    const times = bar.times !== undefined && bar.times > 2 ? ` x${bar.times}` : '';
    const sign = bar.closes === ':|' && next?.opens === true && times === '' ? ':|:' : bar.closes;
    const opening = next?.opens === true && sign !== ':|:' ? ' |:' : '';
    text += ` ${head.join(' ')} ${sign === '|' && opening !== '' ? '' : sign}${times}${opening}`;
  });
  return text.replace(/ {2,}/g, ' ').trimEnd();
}
