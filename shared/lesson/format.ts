import type { TextEdit } from '../text/span.ts';
import { entryIndexAt, type LessonDocument } from './document.ts';
import { layOutProgression } from './layout/bars-layout.ts';
import { layOutGrid } from './layout/grid-layout.ts';
import { indented, joinWords, type LaidLine, linesToLayOut, type RawLine, sliceOf } from './layout/raw-line.ts';
import { HEADER_KINDS } from './syntax/header-kinds.ts';
import type { Entry } from './syntax/read-entry.ts';

/** Keywords whose value is printed as written, blanks inside kept. */
const AS_WRITTEN: ReadonlySet<string> = new Set([
  'lesson',
  'by',
  'dated',
  'part',
  'corrected',
  'exercise',
  'aim',
  'edition',
]);

/**
 * The edits that lay a lesson out: values and columns under each other, two blanks of indent, `.` for a sound that goes on,
 * nothing behind the last word of a line. What the lesson says stays the same; line ends are not touched; doing it twice
 * changes nothing more.
 */
export function formatDocument(document: LessonDocument): readonly TextEdit[] {
  const edits: TextEdit[] = [];
  for (let index = 0; index < document.entries.length; ) {
    const run = runAt(document, index);
    edits.push(...formatRun(document, index, run));
    index += run;
  }
  return edits;
}

/** The edits for the statement that holds the offset, and for the lines that share its columns. */
export function formatEntryAt(document: LessonDocument, offset: number): readonly TextEdit[] {
  const wanted = entryIndexAt(document, offset);
  for (let index = 0; index <= wanted; ) {
    const run = runAt(document, index);
    if (wanted < index + run) return formatRun(document, index, run);
    index += run;
  }
  return [];
}

/** How many entries from here on share their columns: a header's lines, or `chord` lines, with no empty line between. */
function runAt(document: LessonDocument, index: number): number {
  const kind = groupOf(document.entries[index]);
  if (kind === undefined) return 1;
  let count = 1;
  while (groupOf(document.entries[index + count]) === kind && !endsWithGap(document.entries[index + count - 1]))
    count++;
  return count;
}

function groupOf(entry: Entry | undefined): 'table' | 'chords' | undefined {
  if (entry === undefined) return undefined;
  return entry.statement.kind === 'chord' ? 'chords' : HEADER_KINDS.has(entry.statement.kind) ? 'table' : undefined;
}

function endsWithGap(entry: Entry | undefined): boolean {
  return entry?.lines.slice(1).some((line) => line.kind !== 'statement') ?? true;
}

function formatRun(document: LessonDocument, first: number, count: number): readonly TextEdit[] {
  const entries = document.entries.slice(first, first + count);
  const laid =
    groupOf(entries[0]) === 'chords'
      ? layOutChords(entries)
      : groupOf(entries[0]) === 'table'
        ? layOutTable(entries)
        : entries.map(layOutBlock);
  return entries.flatMap((entry, index) => {
    const start = document.starts[first + index] ?? 0;
    return (laid[index] ?? []).flatMap(({ line, text }): readonly TextEdit[] => {
      const from = line.tokens[0]?.kind === 'byte-order-mark' ? line.start + 1 : line.start;
      if (entry.text.slice(from, line.end) === text) return [];
      return [{ span: { start: start + from, end: start + line.end }, text }];
    });
  });
}

function layOutTable(entries: readonly Entry[]): readonly (readonly LaidLine[])[] {
  const heads = entries.map((entry) => linesToLayOut(entry).find((raw) => raw.line.kind === 'statement'));
  const width = Math.max(...heads.map((head) => keywordOf(head).length));
  return entries.map((entry) =>
    linesToLayOut(entry).map((raw): LaidLine => {
      if (raw.line.kind !== 'statement' || raw.line.indent > 0) return trimmed(entry, raw);
      return { line: raw.line, text: `${keywordOf(raw).padEnd(width)}  ${valueText(entry, raw)}`.trimEnd() };
    }),
  );
}

function layOutChords(entries: readonly Entry[]): readonly (readonly LaidLine[])[] {
  const rows = entries.map((entry) => {
    const head = linesToLayOut(entry).find((raw) => raw.line.kind === 'statement');
    const [keyword = '', name = '', ...rest] = head?.words.map((word) => word.text) ?? [];
    const at = rest.indexOf('fingers');
    const frets = at < 0 ? rest : rest.slice(0, at);
    return [keyword.toLowerCase(), name, joinWords(frets), at < 0 ? '' : joinWords(rest.slice(at))];
  });
  const widths = [0, 1, 2].map((column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  return entries.map((entry, index) =>
    linesToLayOut(entry).map((raw): LaidLine => {
      if (raw.line.kind !== 'statement' || raw.line.indent > 0) return trimmed(entry, raw);
      const cells = rows[index]?.map((cell, column) => cell.padEnd(widths[column] ?? 0)) ?? [];
      return { line: raw.line, text: cells.join('  ').trimEnd() };
    }),
  );
}

function layOutBlock(entry: Entry): readonly LaidLine[] {
  const { statement } = entry;
  const lines = linesToLayOut(entry);
  if (statement.kind === 'pattern' || statement.kind === 'melody') return layOutGrid(entry, lines, 2);
  if (statement.kind === 'progression') return layOutProgression(entry, lines);
  if (statement.kind === 'edition') return layOutEdition(entry, lines);
  if (statement.kind !== 'exercise' && statement.kind !== 'family')
    return lines.map((raw) => headOr(entry, raw, (said) => trimmed(entry, said)));
  const body = lines.filter((raw) => raw.line.kind === 'statement' && raw.line.indent > 0);
  const width = Math.max(0, ...body.map((raw) => labelOf(raw).length));
  return lines.map((raw) =>
    headOr(entry, raw, (said) => ({
      line: said.line,
      text: `  ${labelOf(said).padEnd(width)}  ${valueText(entry, said, labelWords(said))}`.trimEnd(),
    })),
  );
}

/** Inside an edition statements stand one step in and their lines two; only the steps are set, columns stay as typed. */
function layOutEdition(entry: Entry, lines: readonly RawLine[]): readonly LaidLine[] {
  const margin = Math.min(
    ...lines.filter((raw) => raw.line.kind === 'statement' && raw.line.indent > 0).map((raw) => raw.line.indent),
  );
  return lines.map((raw) =>
    headOr(entry, raw, (said) => ({
      line: said.line,
      text: `${' '.repeat(said.line.indent > margin ? 4 : 2)}${sliceOf(entry, said.words)}`,
    })),
  );
}

/** The head line of a block set as `keyword  value`; comments and prose at their step; any other line as the block wants it. */
function headOr(entry: Entry, raw: RawLine, body: (raw: RawLine) => LaidLine): LaidLine {
  if (raw.line.kind !== 'statement') return indented(entry, raw, raw.line.indent > 0 ? 2 : 0);
  if (raw.line.indent > 0) return body(raw);
  return { line: raw.line, text: `${keywordOf(raw)}  ${valueText(entry, raw)}`.trimEnd() };
}

function trimmed(entry: Entry, raw: RawLine): LaidLine {
  const from = raw.line.tokens[0]?.kind === 'byte-order-mark' ? raw.line.start + 1 : raw.line.start;
  return { line: raw.line, text: entry.text.slice(from, raw.line.end).trimEnd() };
}

function keywordOf(raw: RawLine | undefined): string {
  return raw?.words[0]?.text.toLowerCase() ?? '';
}

/** How many words of a line in an exercise or family are its label: `at bar 4 8` is one, with what is played there for its value. */
function labelWords(raw: RawLine): number {
  if (keywordOf(raw) !== 'at') return 1;
  const first = raw.words.findIndex(
    ({ text }, index) => index > 0 && !/^(bars?|\d{1,3}|,|\d(st|nd|rd|th)(\+\d(st|nd|rd|th))*)$/i.test(text),
  );
  return first < 0 ? raw.words.length : first;
}

function labelOf(raw: RawLine): string {
  const words = raw.words.slice(1, labelWords(raw)).map((word) => word.text);
  return joinWords([keywordOf(raw), ...words]);
}

function valueText(entry: Entry, raw: RawLine, label = 1): string {
  const rest = raw.words.slice(label);
  return AS_WRITTEN.has(keywordOf(raw)) ? sliceOf(entry, rest) : joinWords(rest.map((word) => word.text));
}
