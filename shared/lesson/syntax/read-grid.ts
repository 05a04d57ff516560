import { reportValue } from './begun-values.ts';
import { readCells } from './read-cells.ts';
import { readCountRow } from './read-count.ts';
import { isNoChord, readChordName } from './read-names.ts';
import { blockSpan, readName } from './read-progression.ts';
import { readProse } from './read-prose.ts';
import { readMeter, readRing } from './read-values.ts';
import { afterLine, asksFor, type BlockLine, phraseOf, type Reading, report, type WordLine } from './reading.ts';
import type { Contour, GridRow, GridStatement, MusicLine, Prose, RowKind } from './statement.ts';
import { keywordOf, unknownLine } from './unknown-line.ts';

const ROW_KINDS: ReadonlySet<string> = new Set(['pick', 'strum', 'hit', 'tune', 'fingers', 'chord', 'words', 'say']);
const CONTOURS: ReadonlySet<string> = new Set(['rise', 'fall', 'arch', 'answer']);
/** What is asked where one of these stands alone. */
const QUESTIONS: Readonly<Record<string, string>> = {
  meter: 'Which meter? meter 3/4',
  ring: 'Which strings ring on? ring 1 2',
  plant: 'Which finger rests on which string? plant p4 i3 m2 a1',
};
/** Rows that take numbers for voices; only these can sound twice at once. */
const VOICED: ReadonlySet<string> = new Set(['pick', 'tune', 'words']);

/** A pattern or a melody: a block of rows under counts. */
export function readGrid(
  reading: Reading,
  kind: 'pattern' | 'melody',
  line: WordLine,
  body: readonly BlockLine[],
): GridStatement {
  const [first, ...surplus] = line.rest;
  const name = first === undefined ? undefined : readName(reading, first, kind, body.length === 0);
  if (name === undefined)
    report(reading, 'hint', 'grid.no-name', afterLine(line), `Give the ${kind} a name, so that exercises can use it.`);
  for (const piece of surplus)
    report(reading, 'error', 'name.surplus', piece.span, `The name of a ${kind} is one word; join them with -.`);

  const lines: OpenLine[] = [];
  const prose: Prose[] = [];
  const found: { -readonly [K in keyof GridStatement]?: GridStatement[K] } = {};
  for (const said of body) {
    if (said.kind === 'prose') {
      prose.push(readProse(reading, [said.line]));
      continue;
    }
    const word = keywordOf(reading, said, kind);
    const value = phraseOf(reading, said.rest);
    if (word === 'count') startLine(lines, { count: readCountRow(reading, said) });
    else if (ROW_KINDS.has(word) && (word !== 'tune' || kind === 'melody'))
      addRow(reading, lines, readRow(reading, word as RowKind, said, lines.at(-1)?.count?.columns.length));
    else if (word === 'like') {
      if (said.rest[0] !== undefined) found.like = said.rest[0];
      else report(reading, 'hint', 'like.no-name', afterLine(said), 'Which pattern is it like?');
    } else if (QUESTIONS[word] !== undefined && asksFor(reading, said, QUESTIONS[word])) {
      // Half-typed; the question is all there is to say.
    } else if (word === 'meter') {
      const meter = readMeter(value?.text ?? '');
      if (typeof meter === 'string') reportValue(reading, 'meter', value ?? said.keyword, meter);
      else found.meter = { meter, span: value?.span ?? said.span };
    } else if (word === 'ring') {
      const ring = readRing(said.rest.filter((piece) => piece.kind === 'word').map((piece) => piece.text));
      if (typeof ring === 'string') reportValue(reading, 'ring', { text: value?.text ?? '', span: said.span }, ring);
      else found.ring = { ring, span: said.span };
    } else if (word === 'plant') found.plant = { strings: readPlant(reading, said), span: said.span };
    else if (kind === 'melody' && word === 'inside') {
      if (said.rest[0] !== undefined) found.inside = said.rest[0];
      else report(reading, 'hint', 'inside.no-name', afterLine(said), 'Inside the shapes of which progression?');
    } else if (kind === 'melody' && CONTOURS.has(word))
      found.contour = { contour: word as Contour, span: said.keyword.span };
    else if (isChordRow(said)) addRow(reading, lines, readChordRow(reading, said));
    else unknownLine(reading, said, kind);
  }
  return {
    ...found,
    kind,
    keyword: line.keyword,
    span: blockSpan(line, body),
    lines: lines.map(closeLine),
    prose,
    ...(name !== undefined ? { name } : {}),
  };
}

interface OpenLine {
  readonly count?: MusicLine['count'];
  readonly rows: GridRow[];
}

function startLine(lines: OpenLine[], line: { readonly count?: MusicLine['count'] }): OpenLine {
  const open: OpenLine = { ...line, rows: [] };
  lines.push(open);
  return open;
}

/** A row label that comes again starts the next line of music, which then counts as the line before it. */
function addRow(reading: Reading, lines: OpenLine[], row: GridRow): void {
  const open = lines.at(-1) ?? startLine(lines, {});
  const labelled = (other: GridRow): boolean =>
    other.kind === row.kind &&
    other.voice === row.voice &&
    other.chord?.text === row.chord?.text &&
    other.kind !== 'fingers';
  const again = open.rows.some(labelled);
  if (row.kind === 'fingers' && open.rows.length === 0) {
    report(
      reading,
      'error',
      'fingers.no-row',
      row.span,
      'fingers stand under the row whose notes they stop; there is none above.',
    );
  }
  if (!again) open.rows.push(row);
  else startLine(lines, open.count === undefined ? {} : { count: open.count }).rows.push(row);
}

function closeLine(line: OpenLine): MusicLine {
  const spans = [...(line.count === undefined ? [] : [line.count.span]), ...line.rows.map((row) => row.span)];
  const start = Math.min(...spans.map((span) => span.start));
  const end = Math.max(...spans.map((span) => span.end));
  return { ...(line.count === undefined ? {} : { count: line.count }), rows: line.rows, span: { start, end } };
}

function readRow(reading: Reading, kind: RowKind, line: WordLine, columns: number | undefined): GridRow {
  let rest = line.rest;
  let voice = 1;
  const first = rest[0];
  const second = rest[1];
  // The first word of a pick row may be a string number. It is a voice where there is one word more than the count has
  // columns; without a count, where it stands one blank behind `pick` and at least two before the next word.
  const isVoice =
    columns === undefined
      ? first !== undefined &&
        second !== undefined &&
        second.span.start - first.span.end > 1 &&
        first.span.start - line.keyword.span.end === 1
      : line.rest.filter((piece) => piece.kind === 'word').length === columns + 1;
  if (first !== undefined && VOICED.has(kind) && /^[2-9]$/.test(first.text) && isVoice) {
    voice = Number(first.text);
    rest = rest.slice(1);
  }
  let chord: GridRow['chord'];
  const label = rest[0];
  // Am is the chord, and could be the other bass string under the middle finger: that only where the count wants one mark more.
  const isBass =
    /^A[pia]$/.test(label?.text ?? '') ||
    (label?.text === 'Am' && rest.filter((piece) => piece.kind === 'word').length === columns);
  if (kind === 'pick' && label !== undefined && /^[A-G]/.test(label.text) && !isBass) {
    const name = readChordName(label);
    if (name.symbol !== undefined || name.label !== undefined) {
      chord = name;
      rest = rest.slice(1);
    }
  }
  return {
    kind,
    voice,
    span: line.span,
    keyword: line.keyword,
    cells: readCells(reading, kind, line.keyword, rest),
    ...(chord !== undefined ? { chord } : {}),
  };
}

/** `C6  1:5 . 1:7 .`: a row of tune that goes over one chord. */
function isChordRow(line: WordLine): boolean {
  return readChordName(line.keyword).symbol !== undefined || isNoChord(line.keyword.text);
}

function readChordRow(reading: Reading, line: WordLine): GridRow {
  return {
    kind: 'tune',
    voice: 1,
    span: line.span,
    keyword: line.keyword,
    chord: readChordName(line.keyword),
    cells: readCells(reading, 'tune', line.keyword, line.rest),
  };
}

function readPlant(reading: Reading, line: WordLine): Readonly<Partial<Record<'p' | 'i' | 'm' | 'a', number>>> {
  const strings: Partial<Record<'p' | 'i' | 'm' | 'a', number>> = {};
  for (const piece of line.rest) {
    if (piece.kind === 'comma') continue;
    const match = /^([pima])([1-8])$/.exec(piece.text);
    if (match === null) {
      report(
        reading,
        'error',
        'plant.unreadable',
        piece.span,
        `${piece.text} is no finger on a string; write p4 i3 m2 a1.`,
      );
    } else strings[match[1] as 'p' | 'i' | 'm' | 'a'] = Number(match[2]);
  }
  return strings;
}
