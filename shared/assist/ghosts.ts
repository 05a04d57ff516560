import type { LessonDocument } from '../lesson/document.ts';
import { resolveChord } from '../lesson/model/chords.ts';
import { timeEvenly } from '../lesson/model/count-times.ts';
import { meterOf } from '../lesson/model/grid.ts';
import { lessonOf } from '../lesson/model/lesson.ts';
import { createMemo } from '../lesson/model/memo.ts';
import { type Scope, scopeOf } from '../lesson/model/scope.ts';
import type { GridStatement, ProgressionStatement, Statement } from '../lesson/syntax/statement.ts';
import { printShape } from '../neck/shape.ts';
import type { Ghost } from './answers.ts';

const memo = createMemo<readonly Ghost[]>();

/** What the tool takes for granted, as ghost text: the usual shape of a chord without a `chord` line, the count of a row without one. */
export function ghostsOf(document: LessonDocument): readonly Ghost[] {
  const scope = scopeOf(lessonOf(document));
  return document.entries.flatMap((entry, index) => {
    const start = document.starts[index] ?? 0;
    const ghosts = memo.get(entry, scope, '', (asked) => ghostsIn(asked, entry.statement));
    return ghosts.map((ghost) => ({ ...ghost, offset: ghost.offset + start }));
  });
}

function ghostsIn(scope: Scope, statement: Statement): readonly Ghost[] {
  if (statement.kind === 'progression') return assumedShapes(scope, statement);
  if (statement.kind === 'pattern' || statement.kind === 'melody') return impliedCounts(scope, statement);
  return [];
}

/** At a chord's first use only: the second time it is known. */
function assumedShapes(scope: Scope, statement: ProgressionStatement): readonly Ghost[] {
  const seen = new Set<string>();
  return statement.lines.flatMap((line) =>
    line.bars.flatMap((bar) =>
      bar.items.flatMap((item): readonly Ghost[] => {
        if (item.kind !== 'chord' || seen.has(item.chord.text) || scope.chord(item.chord.text) !== undefined) return [];
        seen.add(item.chord.text);
        const resolved = resolveChord(scope, item.chord);
        if (resolved === undefined) return [];
        const shape = printShape(resolved.shape);
        return [
          {
            offset: item.chord.span.end,
            text: ` ${shape}`,
            tooltip: `No chord line gives ${item.chord.text}; its usual shape ${shape} is taken.`,
          },
        ];
      }),
    ),
  );
}

function impliedCounts(scope: Scope, statement: GridStatement): readonly Ghost[] {
  if (statement.like !== undefined) return [];
  return statement.lines.flatMap((line): readonly Ghost[] => {
    const first = line.rows[0];
    if (line.count !== undefined || first === undefined) return [];
    const times = timeEvenly(first.cells.length, meterOf(scope, statement));
    if (times === undefined) return [];
    const count = times.columns.map((column) => column.said).join(' ');
    return [
      {
        offset: first.span.end,
        text: `  count ${count}`,
        tooltip: 'The row shares the bar evenly; this is what you would say. A count line says it in the lesson.',
      },
    ];
  });
}
