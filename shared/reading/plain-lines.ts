import { toPlainSigns } from '../lesson/syntax/plain-signs.ts';
import { sourceLines } from './quoted-printable.ts';

/** A line of somebody's text without what mail programs and word processors do to it. */
export interface PlainLine {
  /** Its place among the lines, from 0. */
  readonly index: number;
  /** The lines of the text that it stood on, from 0: several where a mail program has cut it. */
  readonly sources: readonly number[];
  /** Plain signs, one column for each character, no marks of quoting, no blanks behind. */
  readonly text: string;
  /** The same as its author wrote it, a line for each that the text has: what remarks keep. */
  readonly written: readonly string[];
}

/** Columns of a tab stop in mails and editors. Common practice, no source. */
const TAB_WIDTH = 8;

/** Quoting as mail programs do it: `> `, `>> `, `> > `. */
const QUOTED = /^(?:[ \t]{0,3}>)+[ \u00a0]?/;

/** Marks that quote only where every line has them: a bar line, and the stroke of our own remarks. */
const SHARED_MARKS: readonly RegExp[] = [/^[ \t]*\/\/[ \u00a0]?/, /^\|(?:[ \u00a0]|$)/];

/** The lines of a text, as yet with what a mail program has cut off as lines of their own. */
export function plainLines(text: string): readonly PlainLine[] {
  const lines = sourceLines(text);
  const unquoted = lines.map((line) => withoutInvisible(line.text).replace(QUOTED, ''));
  const mark = SHARED_MARKS.find((shared) => sharesMark(unquoted, shared));
  return unquoted.map((line, index) => {
    const written = (mark === undefined ? line : line.replace(mark, '')).trimEnd();
    return { index, sources: lines[index]?.sources ?? [], written: [written], text: plainText(written) };
  });
}

/** A bar line at the head of every line quotes only where tab stands behind it: bars of chords begin with one, too. */
function sharesMark(lines: readonly string[], mark: RegExp): boolean {
  const said = lines.filter((line) => line.trim() !== '');
  if (said.length === 0 || !said.every((line) => mark.test(line))) return false;
  if (said.every((line) => line.trimStart().startsWith('//'))) return true;
  return said.some((line) => /^\s*(?:[A-Ga-g1-8][#b]?\s*)?\|[-\d]/.test(toPlainSigns(line.replace(mark, ''))));
}

/** Characters without width would shift every column behind them. */
function withoutInvisible(line: string): string {
  return line.replace(/[\u00ad\u200b-\u200f\u2060\ufeff]/g, '');
}

function plainText(line: string): string {
  let text = '';
  for (const sign of toPlainSigns(line)) {
    if (sign === '\t') text += ' '.repeat(TAB_WIDTH - (text.length % TAB_WIDTH));
    else if (/\s/.test(sign)) text += ' ';
    else if (/[│┃║‖¦❘⎪┼├┤╟╢]/.test(sign)) text += '|';
    else if (/[─━―ー⸺═]/.test(sign)) text += '-';
    else text += sign;
  }
  return text.trimEnd();
}
