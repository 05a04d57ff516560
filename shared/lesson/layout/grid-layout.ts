import { parseMeter } from '../../theory/meter.ts';
import { toPlainSigns } from '../syntax/plain-signs.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type { GridStatement } from '../syntax/statement.ts';
import { indented, joinWords, type LaidLine, type RawLine, type RawWord } from './raw-line.ts';

/** One row taken apart: its label, and for each column the bar signs before it and the mark. */
interface Row {
  readonly label: string;
  readonly columns: readonly { readonly signs: string; readonly mark: string }[];
  /** Signs behind the last column. */
  readonly closing: string;
}

/** A pattern or melody with its columns under each other. `step` is the indent of its rows. */
export function layOutGrid(entry: Entry, lines: readonly RawLine[], step: number): readonly LaidLine[] {
  const { statement } = entry;
  const rowLengths =
    statement.kind === 'pattern' || statement.kind === 'melody' ? cellCounts(statement) : new Map<number, number>();
  const rows = new Map<RawLine, Row>();
  for (const raw of lines) {
    if (raw.line.kind !== 'statement' || raw.line.indent === 0) continue;
    rows.set(raw, takeApart(raw, rowLengths.get(raw.words[0]?.start ?? -1)));
  }
  const labelWidth = Math.max(0, ...[...rows.values()].map((row) => row.label.length));
  const groups = groupsOf(lines, rows);
  return lines.map((raw): LaidLine => {
    const row = rows.get(raw);
    if (row === undefined) {
      if (raw.line.kind !== 'statement') return indented(entry, raw, raw.line.indent > 0 ? step : 0);
      const [keyword = '', ...rest] = raw.words.map((word) => word.text);
      return { line: raw.line, text: joinWords([`${keyword.toLowerCase()} `, ...rest]).trimEnd() };
    }
    const widths = groups.get(raw) ?? [];
    const cells = row.columns.map(({ signs, mark }, index) => {
      const { signs: signWidth = 0, mark: markWidth = 0 } = widths[index] ?? {};
      return (signWidth > 0 ? `${signs.padEnd(signWidth)} ` : '') + mark.padEnd(markWidth);
    });
    const text = `${' '.repeat(step)}${row.label.padEnd(labelWidth)}  ${[...cells, row.closing].join('  ')}`;
    return { line: raw.line, text: text.trimEnd() };
  });
}

/** How many columns each row that is a grid row has, by where its keyword stands. */
function cellCounts(statement: GridStatement): ReadonlyMap<number, number> {
  const counts = new Map<number, number>();
  for (const line of statement.lines) {
    if (line.count !== undefined) counts.set(line.count.keyword.span.start, line.count.columns.length);
    for (const row of line.rows) counts.set(row.keyword.span.start, row.cells.length);
  }
  return counts;
}

const ROW_KEYWORD = /^(count|pick|strum|hit|tune|fingers|chord|words|say)$/i;

/** A line of words as a row. Where the reader saw no columns in it, as in `like roll`, it is a label with one cell. */
function takeApart(raw: RawLine, cells: number | undefined): Row {
  const [keyword, ...rest] = raw.words;
  const name = keyword?.text ?? '';
  if (cells === undefined)
    return {
      label: name.toLowerCase(),
      columns: [{ signs: '', mark: joinWords(rest.map((word) => word.text)) }],
      closing: '',
    };
  const isCount = name.toLowerCase() === 'count';
  const signsOfBars = new Set(
    rest.filter((word, at) => isSign(word, rest[at - 1]) || (isCount && isMeterAtHead(rest, at))),
  );
  const marks = rest.filter((word) => !signsOfBars.has(word) && word.kind !== 'comma');
  // A voice or a chord between the keyword and the first column belongs to the label.
  const inLabel = marks.slice(0, Math.max(0, marks.length - cells));
  // A chord that labels a row keeps its capital.
  const written = ROW_KEYWORD.test(name) ? name.toLowerCase() : name;
  const label = joinWords([written, ...inLabel.map((word) => word.text)]);
  const columns: { signs: string; mark: string }[] = [];
  let signs: string[] = [];
  for (const word of rest) {
    if (inLabel.includes(word) || word.kind === 'comma') continue;
    if (signsOfBars.has(word)) signs.push(word.text);
    else {
      const isHold = /^-+$/.test(toPlainSigns(word.text)) && written !== 'count';
      columns.push({ signs: signs.join(' '), mark: isHold ? '.' : word.text });
      signs = [];
    }
  }
  return { label, columns, closing: signs.join(' ') };
}

/** True for bar signs and for the endings and `x3` that stand right behind one. */
function isSign(word: RawWord, before: RawWord | undefined): boolean {
  if (word.kind !== 'word') return word.kind === 'bar-sign';
  return before?.kind === 'bar-sign' && /^(x\d+|\d(st|nd|rd|th)(\+\d(st|nd|rd|th))*)$/i.test(word.text);
}

/** True for a meter at the head of its bar: at the beginning of the count, or behind the signs of a bar line. */
function isMeterAtHead(words: readonly RawWord[], at: number): boolean {
  const before = words[at - 1];
  if (parseMeter(words[at]?.text ?? '') === undefined) return false;
  return before === undefined || isSign(before, words[at - 2]);
}

type Widths = readonly { readonly signs: number; readonly mark: number }[];

/** Rows under one count share their columns; a `count` line begins the next group. */
function groupsOf(lines: readonly RawLine[], rows: ReadonlyMap<RawLine, Row>): ReadonlyMap<RawLine, Widths> {
  const groups: RawLine[][] = [[]];
  for (const raw of lines) {
    const row = rows.get(raw);
    if (row === undefined) continue;
    if (row.label === 'count') groups.push([]);
    if (row.columns.length > 1) groups.at(-1)?.push(raw);
  }
  const widths = new Map<RawLine, Widths>();
  for (const group of groups) {
    const members = group.flatMap((raw) => rows.get(raw) ?? []);
    const count = Math.max(0, ...members.map((row) => row.columns.length));
    const shared = Array.from({ length: count }, (_, index) => ({
      signs: Math.max(...members.map((row) => row.columns[index]?.signs.length ?? 0)),
      mark: Math.max(...members.map((row) => row.columns[index]?.mark.length ?? 0)),
    }));
    for (const raw of group) widths.set(raw, shared);
  }
  return widths;
}
