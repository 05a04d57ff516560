import { FEWEST_STRINGS, MOST_STRINGS } from '../neck/instruments.ts';
import { readChordLine } from './chord-line.ts';
import { readCountLine } from './count-line.ts';
import type { PlainLine } from './plain-lines.ts';
import { isTimes, readStringLine } from './string-line.ts';

/** A row of tab and what follows it that may be its rest. */
interface Row {
  readonly head: PlainLine;
  readonly rests: PlainLine[];
}

/**
 * The lines with the rows of tab whole again that a mail program has cut in the middle. A rest has no name of a string; it belongs to
 * the row before it where that has no bar line at its end, where all rows of the block have as many rests, or where the rows come
 * out equally long. So does `x2` alone behind a row.
 */
export function withWholeRows(lines: readonly PlainLine[]): readonly PlainLine[] {
  const rests = new Set<PlainLine>();
  /** Rests of lines above rows, and the column that they begin at. */
  const above = new Map<PlainLine, number>();
  for (const rows of [...namedBlocks(lines), ...namelessBlocks(lines)]) {
    const cut = cutRows(rows);
    for (const row of cut) for (const rest of row.rests) rests.add(rest);
    const head = rows[0]?.head;
    if (cut.length < rows.length || cut.length === 0 || head === undefined) continue;
    for (const rest of restsAbove(lines, head)) above.set(rest, head.text.length);
  }
  const whole: PlainLine[] = [];
  for (const line of lines) {
    const open = whole.at(-1);
    const column = above.get(line);
    if (open === undefined || !(rests.has(line) || column !== undefined || isTimesOf(open, line))) {
      whole.push({ ...line, index: whole.length });
      continue;
    }
    const text =
      column === undefined
        ? open.text + (isTimes(line.text) ? ' ' : '') + line.text.trim()
        : open.text.padEnd(column) + line.text;
    whole[open.index] = {
      index: open.index,
      sources: [...open.sources, ...line.sources],
      written: [...open.written, ...line.written],
      text,
    };
  }
  return whole;
}

/** The rests of counts and chords above rows, which are cut with them: two lines that make one count, or one line of chords. */
function restsAbove(lines: readonly PlainLine[], { index, text }: PlainLine): readonly PlainLine[] {
  let from = index;
  while (index - from < MOST_ABOVE && (lines[from - 1]?.text ?? '') !== '') from -= 1;
  const rests: PlainLine[] = [];
  for (let at = from; at + 1 < index; at += 1) {
    const [one, rest] = [lines[at], lines[at + 1]];
    if (one === undefined || rest === undefined || one.text.length > text.length) continue;
    const whole = one.text.padEnd(text.length) + rest.text;
    if (readCountLine(whole) === undefined && readChordLine(whole) === undefined) continue;
    rests.push(rest);
    at += 1;
  }
  return rests;
}

/** Chords and a count, each in two lines. */
const MOST_ABOVE = 4;

function isTimesOf(row: PlainLine, line: PlainLine): boolean {
  return isTimes(line.text) && row.text.endsWith('|') && readStringLine(row) !== undefined;
}

/** Rows with names that stand together, each with the lines behind it that have none. */
function namedBlocks(lines: readonly PlainLine[]): readonly (readonly Row[])[] {
  const blocks: Row[][] = [];
  let open: Row[] | undefined;
  for (const line of lines) {
    const last = open?.at(-1);
    if (last !== undefined && isRest(line, last)) last.rests.push(line);
    else if (readStringLine(line)?.label !== undefined) {
      open ??= startedIn(blocks);
      open.push({ head: line, rests: [] });
    } else open = undefined;
  }
  return blocks;
}

function startedIn(blocks: Row[][]): Row[] {
  const block: Row[] = [];
  blocks.push(block);
  return block;
}

/** Rows without names: every second line ends with a bar line, and those between are longer and do not. */
function namelessBlocks(lines: readonly PlainLine[]): readonly (readonly Row[])[] {
  const blocks: Row[][] = [];
  for (let at = 0; at < lines.length; at += 1) {
    const rows: Row[] = [];
    for (; isNamelessPair(lines[at], lines[at + 1]); at += 2) {
      const [head, rest] = [lines[at], lines[at + 1]];
      if (head !== undefined && rest !== undefined) rows.push({ head, rests: [rest] });
    }
    const lengths = new Set(rows.map(({ head, rests }) => `${head.text.length} ${rests[0]?.text.length}`));
    if (rows.length >= FEWEST_STRINGS && rows.length <= MOST_STRINGS && lengths.size === 1) blocks.push(rows);
  }
  return blocks;
}

function isNamelessPair(head: PlainLine | undefined, rest: PlainLine | undefined): boolean {
  if (head === undefined || rest === undefined || head.text.length <= rest.text.length) return false;
  if (head.text.endsWith('|') || !rest.text.endsWith('|') || !SIGNS_OF_TAB.test(rest.text)) return false;
  const row = readStringLine(head);
  return row !== undefined && row.label === undefined && row.after === '';
}

/** Nothing but signs that stand on strings; words, counts and names of chords have others, or blanks. */
const SIGNS_OF_TAB = /^\s*[-=_|\dhpsbrvtxo~/\\().<>*:[\]^]+(?:\s+[([]?\s*(?:x\s*\d{1,2}|\d{1,2}\s*x)\s*[)\]]?)?$/i;

function isRest(line: PlainLine, { head }: Row): boolean {
  if (!SIGNS_OF_TAB.test(line.text)) return false;
  const label = readStringLine(line)?.label;
  // `3|` is a rest where strings have names, and `e|` none where they have numbers.
  return label === undefined || (label.kind === 'number' && readStringLine(head)?.label?.kind === 'note');
}

/** The rows of a block that have been cut. */
function cutRows(rows: readonly Row[]): readonly Row[] {
  const counts = rows.map(({ rests }) => rests.length);
  const most = Math.max(...counts);
  if (most === 0) return [];
  const lengths = rows.map(({ head, rests }) =>
    rests.reduce((sum, { text }) => sum + text.trim().length, head.text.length),
  );
  const [length = 0] = lengths;
  const comeOutEqual = lengths.every((one) => one === length);
  if (comeOutEqual && rows.length > 1) return rows;
  // Lines without names behind the last row alone are rows of their own.
  if (counts.slice(0, -1).every((count) => count === 0)) return [];
  const isRegular = counts.every((count) => count === most);
  return rows.filter(({ head }) => isRegular || !head.text.endsWith('|'));
}
