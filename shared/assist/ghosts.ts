import type { LessonDocument } from '../lesson/document.ts';
import { resolveChord } from '../lesson/model/chords.ts';
import { chordsIn } from '../lesson/model/chords-in.ts';
import { timeEvenly } from '../lesson/model/count-times.ts';
import { meterOf } from '../lesson/model/grid.ts';
import { lessonOf } from '../lesson/model/lesson.ts';
import { createMemo } from '../lesson/model/memo.ts';
import type { Scope } from '../lesson/model/scope.ts';
import { scopeOf } from '../lesson/model/scope-of-lesson.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { GridStatement, ProgressionStatement } from '../lesson/syntax/statement.ts';
import { printShape } from '../neck/shape.ts';
import { shifted, type TextEdit } from '../text/span.ts';
import type { Ghost, Writing } from './answers.ts';
import { type ChordLine, lineEnd, newLine, spokenLine } from './chord-line.ts';

/** A ghost before it is known where in the file it would be written. Spans count from the start of the entry. */
interface Assumed extends Omit<Ghost, 'write'> {
  readonly write: ChordLine | { readonly title: string; readonly edit: TextEdit };
}

const memo = createMemo<readonly Assumed[]>();

/** What the tool takes for granted, as ghost text: the usual shape of a chord without a `chord` line, the count of a row without one. */
export function ghostsOf(document: LessonDocument): readonly Ghost[] {
  const scope = scopeOf(lessonOf(document));
  return document.entries.flatMap((entry, index) => {
    const start = document.starts[index] ?? 0;
    const ghosts = memo.get(entry, scope, '', (asked) => assumedIn(asked, entry));
    return ghosts.map((ghost) => ({
      ...ghost,
      offset: ghost.offset + start,
      write: 'shape' in ghost.write ? writeLine(document, index, ghost.write) : shiftedBy(start, ghost.write),
    }));
  });
}

/** Writing down the shape of a chord that is used in the entry. */
function writeLine(document: LessonDocument, entryIndex: number, line: ChordLine): Writing {
  return { title: `Write “${spokenLine(line)}” into the lesson`, edits: [newLine(document, entryIndex, line)] };
}

function shiftedBy(start: number, { title, edit }: { readonly title: string; readonly edit: TextEdit }): Writing {
  return { title, edits: [{ span: shifted(edit.span, start), text: edit.text }] };
}

function assumedIn(scope: Scope, { statement, text }: Entry): readonly Assumed[] {
  if (statement.kind === 'progression') return assumedShapes(scope, statement);
  if (statement.kind === 'pattern' || statement.kind === 'melody') return impliedCounts(scope, statement, text);
  return [];
}

/** At a chord's first use only: the second time it is known. */
function assumedShapes(scope: Scope, statement: ProgressionStatement): readonly Assumed[] {
  const seen = new Set<string>();
  return chordsIn(statement).flatMap((chord): readonly Assumed[] => {
    if (seen.has(chord.text) || scope.chord(chord.text) !== undefined) return [];
    seen.add(chord.text);
    const resolved = resolveChord(scope, chord);
    if (resolved === undefined) return [];
    const { shape } = resolved;
    const frets = printShape(shape);
    return [
      {
        offset: chord.span.end,
        text: ` ${frets}`,
        tooltip: `No chord line gives ${chord.text}; its usual shape ${frets} is taken.`,
        write: { text: chord.text, shape },
      },
    ];
  });
}

function impliedCounts(scope: Scope, statement: GridStatement, text: string): readonly Assumed[] {
  if (statement.like !== undefined) return [];
  return statement.lines.flatMap((line): readonly Assumed[] => {
    const first = line.rows[0];
    if (line.count !== undefined || first === undefined) return [];
    const times = timeEvenly(first.cells.length, meterOf(scope, statement));
    if (times === undefined) return [];
    const count = times.columns.map((column) => column.said).join(' ');
    const at = first.keyword.span.start;
    const indent = /[^\n]*$/.exec(text.slice(0, at))?.[0] ?? '';
    return [
      {
        offset: first.span.end,
        text: `  count ${count}`,
        tooltip: 'The row shares the bar evenly; this is what you would say. A count line says it in the lesson.',
        write: {
          title: `Write “count ${count}” into the lesson`,
          edit: { span: { start: at, end: at }, text: `count  ${count}${lineEnd(text)}${indent}` },
        },
      },
    ];
  });
}
