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

/** A part of a song, and what its heading calls it. */
export interface SongSection {
  readonly name?: string;
  readonly lines: readonly SongLine[];
}

/** Sections, and their numbers in the order in which they are sung. */
export interface SongText {
  readonly sections: readonly SongSection[];
  readonly order: readonly number[];
}

/**
 * A song as lines of a lesson: a `progression` for each section, and where there are several an exercise that plays them in order.
 * Where no bar lines and no strokes say how long a chord lasts, it has a bar, and a remark says so.
 */
export function printSong(
  { sections, order }: SongText,
  meter: Meter,
  nameOf: (called: string | undefined) => string,
): readonly string[] {
  const read = sections.map((section) =>
    section.lines.map((line): Line | string => (line.kind === 'remark' ? `  // ${line.text}` : lineOf(line, meter))),
  );
  const music = read.flatMap((lines) => lines.filter((line): line is Line => typeof line !== 'string'));
  const all = settled(read.map((lines) => lines.flatMap((line) => (typeof line === 'string' ? [] : line.bars))));
  const bars = all.map((own) => withMeters(own, meter));
  const hasPickup = startsBefore(music[0]) && bars[0]?.[0]?.meter === undefined && meter.counts > 1;
  giveBack(music, hasPickup);
  const names = sections.map(({ name }) => nameOf(name));
  const blocks = read.map((lines, index) => [
    `progression  ${names[index]}`,
    ...bodyOf(lines, bars[index] ?? [], hasPickup && index === 0 ? meter : undefined),
  ]);
  const played = names.length < 2 ? [] : [exerciseOf(order.map((section) => names[section] ?? ''))];
  const above = aboveSong(sections.flatMap((section) => section.lines));
  return [...above, ...[...blocks, ...played].flatMap((lines, index) => (index === 0 ? lines : ['', ...lines]))];
}

/** Chords alone, until the teacher says with what they are played. */
function exerciseOf(names: readonly string[]): readonly string[] {
  return ['exercise  Pasted song, all of it', `  play  ${names.join(' ')}`];
}

/** The lines of a progression, which has a pickup where the meter is given whose last count it is. */
function bodyOf(
  lines: readonly (Line | string)[],
  bars: readonly ChordBar[],
  pickup: Meter | undefined,
): readonly string[] {
  let at = 0;
  const body: string[] = pickup === undefined ? [] : [`  count  ${pickup.counts}`];
  const first = lines.find((line) => typeof line !== 'string');
  for (const line of lines) {
    if (typeof line === 'string') {
      body.push(line);
      continue;
    }
    const own = bars.slice(at, at + line.bars.length);
    const isPickup = pickup !== undefined && line === first;
    at += line.bars.length;
    body.push(`  ${isPickup ? '| NC ' : ''}${printBars(own)}`);
    const words = wordsLine(isPickup ? [line.before, ...line.words] : line.words);
    if (words !== undefined) body.push(`  ${words}`);
  }
  return body;
}

function aboveSong(song: readonly SongLine[]): readonly string[] {
  const isGuess = song.some((line) => line.kind === 'chords' && !saysLengths(line.chords));
  const guess =
    '// A guess: the text does not say how long a chord lasts; each has a bar. Take this line out when it is right.';
  const doubtful = song.flatMap((line) => (line.kind === 'chords' ? line.chords.doubtful : []));
  const asked = [...new Map(doubtful.map((one) => [one.written, one])).values()].map(
    ({ written, taken }) => `// ${written} is written for two chords; ${taken} is taken here.`,
  );
  return [...(isGuess ? [guess] : []), ...asked];
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

/** `%` stands alone and never first in a section; where the text has it otherwise, the chord is named. */
function settled(sections: readonly (readonly ChordBar[])[]): readonly (readonly ChordBar[])[] {
  let sounding = 'NC';
  return sections.map((bars) =>
    bars.map((bar, index) => {
      const alone = bar.items.length === 1 && index > 0;
      const items = bar.items.map((item) => (item === '%' && !alone ? sounding : item));
      sounding = items.findLast((item) => item !== '/' && item !== '%') ?? sounding;
      return { ...bar, items };
    }),
  );
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
