import { entryIndexAt, type LessonDocument, spanInFile } from '../lesson/document.ts';
import type { ResolvedChord } from '../lesson/model/resolved-chord.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { ChordStatement } from '../lesson/syntax/statement.ts';
import { printShape, type Shape } from '../neck/shape.ts';
import type { TextEdit } from '../text/span.ts';
import type { ShapeChange } from './answers.ts';
import { type ChordAt, chordAt, heldAt } from './chord-at.ts';
import { type ChordLine, newLine, reshaped, spokenLine } from './chord-line.ts';
import { scopeIn } from './entry-scope.ts';
import { shapesOf, takenShapes } from './further-shapes.ts';

/** Going through the shapes of a chord begins again after so many: beyond them they are rarely worth playing. */
const MOST_SHAPES = 12;

/**
 * What can be done to the shape of the chord at the offset, on its line or wherever it is used: writing down a shape that is only
 * assumed, going on to the next one, going back to the one before. Spans in file offsets.
 */
export function shapeChangesAt(document: LessonDocument, offset: number): readonly ShapeChange[] {
  const index = entryIndexAt(document, offset);
  const entry = document.entries[index];
  const start = document.starts[index];
  if (entry === undefined || start === undefined) return [];
  const scope = scopeIn(document, entry);
  const at = chordAt(scope, entry.statement, offset - start);
  const held = at && heldAt(scope, at);
  if (at === undefined || held === undefined) return [];
  const place: Place = { document, scope, index, at, held, line: lineToChange(scope, at, held) };
  return [...writing(place), ...goingOn(place)];
}

interface Place {
  readonly document: LessonDocument;
  readonly scope: Scope;
  /** Of the entry that the cursor is in. */
  readonly index: number;
  readonly at: ChordAt;
  readonly held: ResolvedChord;
  /** The chord line that gives the shape here, or that is there to give it. */
  readonly line: ChordStatement | undefined;
}

/** On an edition the lesson's own line is left alone: the edition gets one of its own. */
function lineToChange(scope: Scope, at: ChordAt, held: ResolvedChord): ChordStatement | undefined {
  const line = at.line ?? held.statement;
  const { keeps, block } = scope.edition();
  return line === undefined || keeps === 'own' || block?.statement.chords.includes(line) === true ? line : undefined;
}

function writing(place: Place): readonly ShapeChange[] {
  const { held } = place;
  if (!held.assumed) return [];
  const edits = editsFor(place, held.shape);
  const title = `Write “${spokenLine(lineFor(place, held.shape))}” into the lesson`;
  return edits.length === 0 ? [] : [{ kind: 'write', title, edits }];
}

function goingOn(place: Place): readonly ShapeChange[] {
  const { scope, at, held, line } = place;
  const taken = takenShapes(scope, line?.chord ?? at.chord);
  const current = printShape(held.shape);
  const shapes = shapesOf(scope, held.symbol, { max: MOST_SHAPES })
    .map(({ shape }) => shape)
    .filter((shape) => !taken.has(printShape(shape)) || printShape(shape) === current);
  const now = shapes.findIndex((shape) => printShape(shape) === current);
  // A shape of the teacher's own comes before the first and after the last.
  const next = now + 1 < shapes.length ? now + 1 : 0;
  const previous = now > 0 ? now - 1 : shapes.length - 1;
  return [...changeTo(place, 'next', shapes, next), ...changeTo(place, 'previous', shapes, previous)];
}

/** The title says which of how many it is, so that going round is no surprise. */
function changeTo(
  place: Place,
  kind: 'next' | 'previous',
  shapes: readonly Shape[],
  index: number,
): readonly ShapeChange[] {
  const shape = shapes[index];
  if (shape === undefined || printShape(shape) === printShape(place.held.shape)) return [];
  const edits = editsFor(place, shape);
  const name = (place.line?.chord ?? place.at.chord).text;
  return edits.length === 0
    ? []
    : [{ kind, title: `${name}: ${kind} shape, ${printShape(shape)} (${index + 1} of ${shapes.length})`, edits }];
}

function editsFor(place: Place, shape: Shape): readonly TextEdit[] {
  const { document, scope, index, line } = place;
  if (line === undefined) return [newLine(document, index, lineFor(place, shape))];
  const entry = line === place.at.line ? document.entries[index] : scope.entryOf(line);
  const edit = reshaped(line, shape);
  const span = edit && entry && spanInFile(document, entry, edit.span);
  return edit === undefined || span === undefined ? [] : [{ span, text: edit.text }];
}

function lineFor({ at, held, line }: Place, shape: Shape): ChordLine {
  const { chord } = at;
  const name = (line?.chord ?? held.statement?.chord ?? chord).symbol?.text;
  return {
    text: line?.chord?.text ?? chord.text,
    shape,
    ...(name === held.name || name === undefined ? {} : { as: held.name }),
  };
}
