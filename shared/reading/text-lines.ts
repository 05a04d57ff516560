import type { Instrument } from '../neck/instrument.ts';
import { type ChordLine, readChordLine } from './chord-line.ts';
import { type CountLine, readCountLine } from './count-line.ts';
import { readInlineChords } from './inline-chords.ts';
import { type PlainLine, plainLines } from './plain-lines.ts';
import { type RhythmLetter, readRhythmLetters } from './rhythm-letters.ts';
import { sectionName } from './section-heading.ts';
import { type TabSystem, tabSystems } from './systems.ts';
import { TICKS_OF_COUNT } from './tick.ts';
import { withWholeRows } from './wrapped-rows.ts';

/** A system of tab with the lines that stand around it. */
export interface SystemText {
  readonly kind: 'system';
  readonly system: TabSystem;
  readonly count?: CountLine;
  readonly letters?: readonly RhythmLetter[];
  readonly chords?: ChordLine;
  /** How its letters were written, to be kept where they say nothing after all. */
  readonly lettersWritten?: string;
}

/** What a text is made of, in order. Lines that stand around a system are part of it. */
export type TextItem =
  | SystemText
  | {
      readonly kind: 'chords';
      readonly chords: ChordLine;
      readonly words?: string;
      readonly written: readonly string[];
    }
  /** Empty lines. */
  | { readonly kind: 'gap' }
  /** Not understood, or nothing that a lesson has a place for. */
  | { readonly kind: 'kept'; readonly written: string };

/** What became of a line. */
export type LineFate = 'empty' | 'music' | 'kept';

export interface TextLines {
  readonly items: readonly TextItem[];
  /** For each line of the text. */
  readonly fates: readonly LineFate[];
}

type Around = { -readonly [K in 'count' | 'letters' | 'chords' | 'lettersWritten']?: SystemText[K] };

/** Takes a text apart. */
export function textLines(text: string, wish: { readonly instrument?: Instrument; readonly reads: Reads }): TextLines {
  const lines = wish.reads.tab ? withWholeRows(plainLines(text)) : plainLines(text);
  const systems = wish.reads.tab ? tabSystems(lines, wish.instrument?.openStrings.length) : [];
  const taken = new Set<number>();
  const systemAt = new Map<number, TabSystem>();
  for (const system of systems) {
    for (const { line } of system.lines) taken.add(line.index);
    systemAt.set(system.lines[0]?.line.index ?? 0, system);
  }
  const around = linesAround(lines, systems, taken);
  const chordLines = wish.reads.chords ? freeChordLines(lines, taken) : new Map<number, FreeChords>();
  const items: TextItem[] = [];
  for (const { index, text: line, written } of lines) {
    const system = systemAt.get(index);
    const { chords, words: inline } = chordLines.get(index) ?? {};
    if (system !== undefined) items.push({ kind: 'system', system, ...around.get(system) });
    if (taken.has(index)) continue;
    if (line.trim() === '') {
      if (items.at(-1)?.kind !== 'gap') items.push({ kind: 'gap' });
      continue;
    }
    if (chords === undefined) {
      items.push(...written.map((one): TextItem => ({ kind: 'kept', written: one })));
      continue;
    }
    taken.add(index);
    if (inline !== undefined) {
      items.push({ kind: 'chords', chords, words: inline, written });
      continue;
    }
    const below = lines[index + 1];
    const isSung =
      below !== undefined && !taken.has(below.index) && !chordLines.has(below.index) && isWords(below.text);
    if (isSung) taken.add(below.index);
    const words = isSung ? { words: below.text } : {};
    items.push({ kind: 'chords', chords, ...words, written: isSung ? [...written, ...below.written] : written });
  }
  const fates = lines.flatMap(({ index, text: line, sources }) => {
    const fate = taken.has(index) ? 'music' : line.trim() === '' ? 'empty' : 'kept';
    return sources.map((): LineFate => fate);
  });
  return { items, fates };
}

/** Which kinds of music are looked for. */
export interface Reads {
  readonly tab: boolean;
  readonly chords: boolean;
}

/** Most lines above or below a system that may belong to it: chords, count, letters. */
const MOST_AROUND = 4;

/** Finds the count, the letters and the chords of each system, and takes their lines. */
function linesAround(
  lines: readonly PlainLine[],
  systems: readonly TabSystem[],
  taken: Set<number>,
): ReadonlyMap<TabSystem, Around> {
  const around = new Map<TabSystem, Around>();
  const countsBelow = standsBelow(lines, systems[0], taken);
  for (const system of systems) {
    const found: Around = {};
    around.set(system, found);
    const first = system.lines[0]?.line.index ?? 0;
    const last = system.lines.at(-1)?.line.index ?? 0;
    const above = neighbours(lines, first, -1, taken);
    const below = neighbours(lines, last, 1, taken);
    for (const line of countsBelow ? [...below, ...above] : [...above, ...below]) {
      const said = found.count === undefined ? readCountLine(line.text) : undefined;
      const count = said !== undefined && !numbersBars(said, system) ? said : undefined;
      const letters = found.letters === undefined ? readRhythmLetters(line.text) : undefined;
      if (count !== undefined) found.count = count;
      else if (letters !== undefined) {
        found.letters = letters;
        found.lettersWritten = line.written.join(' ');
      } else if (found.chords === undefined && above.includes(line)) {
        const chords = readChordLine(line.text);
        if (chords === undefined || chords.mayBeWords || !isOnlyChords(chords)) continue;
        found.chords = chords;
      } else continue;
      taken.add(line.index);
    }
  }
  return around;
}

/** True for numbers of bars, which look like a count: several bars, and no more than one number over each. */
function numbersBars({ said }: CountLine, { lines }: TabSystem): boolean {
  const [first] = lines;
  if (first === undefined || said.some(({ tick }) => tick % TICKS_OF_COUNT !== 0)) return false;
  const ends = [...first.body.matchAll(/\|+/g)]
    .map(({ index }) => first.column + index)
    .filter((at) => at > first.column);
  const bars = said.map(({ column }) => ends.filter((end) => end <= column + 1).length);
  const last = Math.max(...bars);
  return last > 0 && new Set(bars).size === bars.length;
}

function isOnlyChords({ tokens, beside }: ChordLine): boolean {
  return beside.length === 0 && tokens.every(({ kind }) => kind === 'chord' || kind === 'bar');
}

/** True where the first system has its count below and none above: then those of all others are looked for below first. */
function standsBelow(lines: readonly PlainLine[], system: TabSystem | undefined, taken: ReadonlySet<number>): boolean {
  const first = system?.lines[0]?.line.index;
  const last = system?.lines.at(-1)?.line.index;
  if (first === undefined || last === undefined) return false;
  const counts = (found: readonly PlainLine[]) => found.some(({ text }) => readCountLine(text) !== undefined);
  return !counts(neighbours(lines, first, -1, taken)) && counts(neighbours(lines, last, 1, taken));
}

/** Lines next to a system, nearest first, up to an empty one; a count may also stand behind one empty line. */
function neighbours(
  lines: readonly PlainLine[],
  from: number,
  step: 1 | -1,
  taken: ReadonlySet<number>,
): readonly PlainLine[] {
  const found: PlainLine[] = [];
  for (let at = from + step; found.length < MOST_AROUND; at += step) {
    const line = lines[at];
    if (line === undefined || taken.has(at)) break;
    if (line.text.trim() === '') {
      const next = lines[at + step];
      const isCount = found.length === 0 && next !== undefined && !taken.has(next.index) && readCountLine(next.text);
      if (isCount && lines[at + 2 * step]?.text.trim() === '') found.push(next);
      break;
    }
    found.push(line);
  }
  return found;
}

/** A line of chords, or of words with chords inside. */
interface FreeChords {
  readonly chords: ChordLine;
  readonly words?: string;
}

/** Lines of chords that belong to no system. One whose chords may be words needs others around it that are chords for sure. */
function freeChordLines(lines: readonly PlainLine[], taken: ReadonlySet<number>): ReadonlyMap<number, FreeChords> {
  const found = new Map<number, FreeChords>();
  for (const { index, text } of lines) {
    if (taken.has(index) || text.trim() === '') continue;
    const chords = readChordLine(text);
    const free = chords === undefined ? readInlineChords(text) : { chords };
    if (free !== undefined) found.set(index, free);
  }
  // `[B]` right above chords is the name of a part.
  for (const index of [...found.keys()]) {
    if (/^\s*\[[A-H]\]$/.test(lines[index]?.text ?? '') && found.has(index + 1)) found.delete(index);
  }
  const isSure = [...found.values()].some(({ chords }) => !chords.mayBeWords);
  const isInline = [...found.values()].some(({ chords, words }) => words !== undefined && !chords.mayBeWords);
  for (const [index, { chords, words }] of found) {
    const { mayBeWords, tokens } = chords;
    if (!mayBeWords || (words !== undefined && isInline)) continue;
    if (words !== undefined) {
      found.delete(index);
      continue;
    }
    const below = lines[index + 1]?.text ?? '';
    const isOver = isWords(below) && !found.has(index + 1) && !found.has(index - 1);
    const areChords = tokens.every((token) => token.kind === 'chord' && /^Am?$/.test(token.name));
    const isWide = / {3,}\S/.test(lines[index]?.text ?? '');
    if (!areChords || !isOver || !(isSure || isWide)) found.delete(index);
  }
  return found;
}

/** Something that is sung: letters in it, and no heading. */
function isWords(text: string): boolean {
  const said = text.trim();
  if (!/\p{L}/u.test(said) || said.includes('|')) return false;
  if (/^[[({<].*[\])}>]$/.test(said) || sectionName(said) !== undefined) return false;
  if (/^(?:capo|tempo|bpm)\b\s*[:=]?\s*\d/i.test(said)) return false;
  return !/^(?:capo|tuning|key|tempo|repeat)\b[\s\d:.]*$/i.test(said);
}
