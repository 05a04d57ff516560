import { editDocument, type LessonDocument } from '../lesson/document.ts';
import { formatEntryAt } from '../lesson/format.ts';
import { chordsIn } from '../lesson/model/chords-in.ts';
import type { ChordStatement, EditionStatement } from '../lesson/syntax/statement.ts';
import { printShape, type Shape } from '../neck/shape.ts';
import { type Span, shifted, type TextEdit } from '../text/span.ts';

/** What a chord line is to say. */
export interface ChordLine {
  /** Name and label as the lesson uses them. */
  readonly text: string;
  /** The name that the chord has on the edition, where that is another one. */
  readonly as?: string;
  readonly shape: Shape;
}

/** `chord Em 0-4-3-2` */
export function spokenLine({ text, as, shape }: ChordLine): string {
  return `chord ${text} ${as === undefined ? '' : `as ${as} `}${printShape(shape)}`;
}

/**
 * The edit that gives the chord line another shape. Its fingers stay where the shape only moves along the neck; elsewhere they
 * would stop the wrong strings.
 */
export function reshaped(line: ChordStatement, shape: Shape): TextEdit | undefined {
  const frets = printShape(shape);
  const name = line.as ?? line.chord;
  if (line.frets === undefined)
    return name && { span: { start: name.span.end, end: name.span.end }, text: `  ${frets}` };
  const keepsFingers = line.fingersWord === undefined || (line.shape !== undefined && isMoved(line.shape, shape));
  const end = keepsFingers ? line.frets.span.end : line.fingersWord.span.end;
  return { span: { start: line.frets.span.start, end }, text: frets };
}

function isMoved(from: Shape, to: Shape): boolean {
  const steps = new Set<number>();
  for (const [index, fret] of from.entries()) {
    const other = to[index];
    const isStopped = typeof fret === 'number' && fret > 0;
    if (isStopped !== (typeof other === 'number' && other > 0)) return false;
    if (isStopped && typeof other === 'number') steps.add(other - fret);
  }
  return steps.size === 1;
}

/**
 * The edit that writes a chord line of its own for a chord used in the entry: below the chord lines nearest above it, else below
 * the first ones further down, else above the first progression that uses the chord. In an edition block it stands in the block.
 */
export function newLine(document: LessonDocument, entryIndex: number, line: ChordLine): TextEdit {
  return withNeighboursAligned(document, bareLine(document, entryIndex, line));
}

/**
 * The new line may be wider than those beside it: where their columns stood under each other they move in the same edit, so that one
 * undo takes all back.
 */
function withNeighboursAligned(document: LessonDocument, edit: TextEdit): TextEdit {
  if (formatEntryAt(document, Math.max(0, edit.span.start - 1)).length > 0) return edit;
  const written = editDocument(document, edit);
  const aligning = formatEntryAt(written, edit.span.start + edit.text.search(/\S/));
  // Both in the written text; what lies behind the new line has moved by its length.
  const start = Math.min(edit.span.start, ...aligning.map(({ span }) => span.start));
  const end = Math.max(edit.span.start + edit.text.length, ...aligning.map(({ span }) => span.end));
  const moved = edit.text.length - (edit.span.end - edit.span.start);
  const shiftedBack = aligning.map(({ span, text }) => ({ span: shifted(span, -start), text }));
  return { span: { start, end: end - moved }, text: applied(written.text.slice(start, end), shiftedBack) };
}

function applied(text: string, edits: readonly TextEdit[]): string {
  return [...edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((done, { span, text: part }) => done.slice(0, span.start) + part + done.slice(span.end), text);
}

function bareLine(document: LessonDocument, entryIndex: number, line: ChordLine): TextEdit {
  const entry = document.entries[entryIndex];
  const start = document.starts[entryIndex] ?? 0;
  const statement = entry?.statement;
  if (statement?.kind === 'edition') return lineInBlock(document, statement, start, line);
  const model = neighbouringLine(document, entryIndex);
  if (model !== undefined) return lineBelow(document, model.statement, model.start, line);
  return lineAbove(document, document.starts[firstUse(document, line.text) ?? entryIndex] ?? start, line);
}

interface PlacedLine {
  readonly statement: ChordStatement;
  /** Where its entry starts in the file. */
  readonly start: number;
}

function neighbouringLine(document: LessonDocument, entryIndex: number): PlacedLine | undefined {
  const chordLine = (index: number): PlacedLine | undefined => {
    const statement = document.entries[index]?.statement;
    return statement?.kind === 'chord' ? { statement, start: document.starts[index] ?? 0 } : undefined;
  };
  for (let index = entryIndex; index >= 0; index--) {
    const above = chordLine(index);
    if (above !== undefined) return above;
  }
  for (let index = entryIndex; index < document.entries.length; index++) {
    const below = chordLine(index);
    // The last of a run of chord lines.
    if (below !== undefined && chordLine(index + 1) === undefined) return below;
  }
  return undefined;
}

/** Index of the entry of the first progression that uses the chord. */
function firstUse(document: LessonDocument, text: string): number | undefined {
  const index = document.entries.findIndex(
    ({ statement }) => statement.kind === 'progression' && chordsIn(statement).some((chord) => chord.text === text),
  );
  return index < 0 ? undefined : index;
}

function lineInBlock(document: LessonDocument, block: EditionStatement, start: number, line: ChordLine): TextEdit {
  const last = block.chords.at(-1);
  if (last !== undefined) return lineBelow(document, last, start, line);
  const at = endOfLine(document.text, start + block.keyword.span.end);
  const indent = /^[ \t]+(?=\S)/m.exec(document.text.slice(at.end, start + block.span.end))?.[0];
  return { span: at, text: `${lineEnd(document.text)}${indent ?? '  '}${laidOut(line)}` };
}

/** Laid out in the columns of the line above it. */
function lineBelow(document: LessonDocument, above: ChordStatement, start: number, line: ChordLine): TextEdit {
  const { text } = document;
  const keyword = shifted(above.keyword.span, start);
  const lineStart = text.lastIndexOf('\n', keyword.start - 1) + 1;
  const indent = /^[ \t]*/.exec(text.slice(lineStart, keyword.start))?.[0] ?? '';
  const at = endOfLine(text, start + above.span.end);
  return { span: at, text: `${lineEnd(text)}${indent}${laidOut(line, above)}` };
}

function lineAbove(document: LessonDocument, entryStart: number, line: ChordLine): TextEdit {
  const { text } = document;
  let at = entryStart === 0 && text.startsWith('\ufeff') ? 1 : entryStart;
  // A remark right above the entry is about the entry, and stays with it.
  while (at > 0 && lineEndingAt(text, at).startsWith('//')) at = text.lastIndexOf('\n', at - 2) + 1;
  const end = lineEnd(text);
  const isApart = text[at - 1] === '\n' && lineEndingAt(text, at) === '';
  return { span: { start: at, end: at }, text: `${laidOut(line)}${end}${isApart ? end : ''}` };
}

/** The words of the line whose end is at the offset. */
function lineEndingAt(text: string, offset: number): string {
  return text.slice(text.lastIndexOf('\n', offset - 2) + 1, offset).trim();
}

function laidOut({ text, as, shape }: ChordLine, model?: ChordStatement): string {
  const name = as === undefined ? text : `${text} as ${as}`;
  const { chord, frets } = model ?? {};
  const nameAt = model === undefined || chord === undefined ? 7 : chord.span.start - model.keyword.span.start;
  const nameEnd = (model?.as ?? chord)?.span.end;
  const gap = frets === undefined || nameEnd === undefined ? 2 : Math.min(2, frets.span.start - nameEnd);
  const width = frets === undefined || chord === undefined ? 0 : frets.span.start - chord.span.start;
  return `${'chord'.padEnd(nameAt)}${name.padEnd(Math.max(width, name.length + gap))}${printShape(shape)}`;
}

function endOfLine(text: string, from: number): Span {
  const end = /\r?\n|\r|$/.exec(text.slice(from));
  const at = from + (end?.index ?? 0);
  return { start: at, end: at };
}

/** The line end that the lesson uses. */
export function lineEnd(text: string): string {
  return text.includes('\r\n') ? '\r\n' : '\n';
}
