import type { Problem } from '../../text/problem.ts';
import { shifted } from '../../text/span.ts';
import type { LessonDocument } from '../document.ts';
import { type Lesson, lessonOf } from '../model/lesson.ts';
import { createMemo } from '../model/memo.ts';
import type { Scope } from '../model/scope.ts';
import { scopeOf } from '../model/scope-of-lesson.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type { Statement } from '../syntax/statement.ts';
import { checkAlso, checkAssumedShapes } from './check-assumed.ts';
import { checkCapo } from './check-capo.ts';
import { checkChanges } from './check-change.ts';
import { checkChord } from './check-chord.ts';
import { checkEdition } from './check-edition.ts';
import { checkExercise } from './check-exercise.ts';
import { checkFamily } from './check-family.ts';
import { checkGrid } from './check-grid.ts';
import { checkHeader } from './check-header.ts';
import { checkLevel } from './check-level.ts';
import { checkProse, checkShow } from './check-names.ts';
import { addedByEditions, checkOnEdition, dependsOnInstrument, type FoundOnEdition } from './check-on-editions.ts';
import { checkProgression } from './check-progression.ts';
import { checkQuestion } from './check-question.ts';
import { type Report, reportInto } from './finding.ts';
import { isInstrumentUnread, isOfInstrument } from './unread-instrument.ts';

const memo = createMemo<readonly Problem[]>();

/**
 * Everything a teacher should know about the lesson, in the order of the text. Spans are file offsets.
 * What was found in an entry is kept until the entry, or something it asked about, changes.
 */
export function problemsOf(document: LessonDocument): readonly Problem[] {
  const lesson = lessonOf(document);
  const scope = scopeOf(lesson);
  const blocks = new Map(
    lesson.editions.flatMap((edition) => (edition.block === undefined ? [] : [[edition.block.entry, edition]])),
  );
  const isUnread = isInstrumentUnread(document);
  const header = new Map(checkHeader(lesson).map(({ entry, problems }) => [entry, problems]));
  return document.entries.flatMap((entry, index) => {
    const start = document.starts[index] ?? 0;
    // What stands in an edition block is held on that edition's instrument.
    const edition = blocks.get(entry);
    const asked = edition === undefined ? scope : scopeOf(lesson, edition);
    const own = problemsOfEntry(entry, asked);
    const all = [...own, ...problemsOfEditions(lesson, entry, own), ...(header.get(entry) ?? [])];
    const found = isUnread ? all.filter((one) => entry.problems.includes(one) || !isOfInstrument(one.code)) : all;
    return found.length === 0
      ? []
      : found.map((problem) => placed(problem, start)).sort((a, b) => a.span.start - b.span.start);
  });
}

/** The problems of one entry, spans counted from its start; those that concern several entries are left out. */
function problemsOfEntry(entry: Entry, scope: Scope): readonly Problem[] {
  return memo.get(entry, scope, scope.edition().name, (asked) => {
    const problems: Problem[] = [...entry.problems];
    checkStatement(reportInto(problems), asked, entry.statement);
    checkQuestion(reportInto(problems), asked, entry);
    return problems;
  });
}

/** What an entry comes to on the further editions, beyond what is told of it already. */
function problemsOfEditions(lesson: Lesson, entry: Entry, own: readonly Problem[]): readonly Problem[] {
  const { editions } = lesson;
  if (editions.length < 2 || !dependsOnInstrument(entry.statement)) return NONE;
  const found: FoundOnEdition[] = [];
  for (const edition of editions.slice(1)) {
    const problems = memo.get(entry, scopeOf(lesson, edition), `on ${edition.name}`, (asked) => {
      const list: Problem[] = [];
      checkOnEdition(reportInto(list), asked, entry.statement);
      return list;
    });
    if (problems.length > 0) found.push({ edition, problems });
  }
  return found.length === 0 ? NONE : addedByEditions(own, found, editions);
}

const NONE: readonly Problem[] = [];

function checkStatement(report: Report, scope: Scope, statement: Statement): void {
  switch (statement.kind) {
    case 'chord':
      checkChord(report, scope, statement);
      return;
    case 'progression':
      checkProgression(report, scope, statement);
      checkAssumedShapes(report, scope, statement);
      break;
    case 'pattern':
    case 'melody':
      checkGrid(report, scope, statement);
      break;
    case 'exercise':
      checkExercise(report, scope, statement);
      checkChanges(report, scope, statement);
      break;
    case 'family':
      checkFamily(report, scope, statement);
      break;
    case 'edition':
      checkEdition(report, scope, statement);
      break;
    case 'show':
      checkShow(report, scope, statement);
      return;
    case 'level':
      checkLevel(report, scope, statement);
      return;
    case 'for':
      checkCapo(report, scope, statement);
      return;
    case 'also':
      checkAlso(report, scope, statement);
      return;
    case 'prose':
      checkProse(report, scope, statement.paragraphs);
      return;
    default:
      return;
  }
  checkProse(report, scope, statement.prose);
}

function placed(problem: Problem, start: number): Problem {
  const { fixes } = problem;
  return {
    ...problem,
    span: shifted(problem.span, start),
    ...(fixes === undefined
      ? {}
      : {
          fixes: fixes.map((fix) => ({
            ...fix,
            edits: fix.edits.map((edit) => ({ ...edit, span: shifted(edit.span, start) })),
          })),
        }),
  };
}
