import { type CodeAction, type CodeActionContext, CodeActionKind, type Range } from 'vscode-languageserver';
import { editsOfFix } from '../../shared/assist/definition.ts';
import { problemsOf } from '../../shared/lesson/check/problems.ts';
import type { Problem } from '../../shared/text/problem.ts';
import type { EditorCan } from '../editor-can.ts';
import { toSpan } from '../from-protocol.ts';
import type { OpenLesson } from '../open-lessons.ts';
import { workspaceEdit } from '../workspace-edit.ts';
import { toDiagnostic } from './diagnostics.ts';
import { ghostsWithin } from './inlay-hints.ts';

export function codeActions(
  lesson: OpenLesson,
  range: Range,
  context: CodeActionContext,
  can: EditorCan,
): CodeAction[] {
  if (!can.codeActionValues) return [];
  const actions: CodeAction[] = [];
  if (wants(context, CodeActionKind.QuickFix)) {
    const asked = toSpan(lesson.text, range);
    for (const problem of problemsOf(lesson.document)) {
      if (problem.span.start > asked.end || problem.span.end < asked.start) continue;
      actions.push(...fixesOf(lesson, problem, can));
    }
  }
  if (wants(context, CodeActionKind.RefactorRewrite)) actions.push(...writtenGhosts(lesson, range, can));
  return actions;
}

function fixesOf(lesson: OpenLesson, problem: Problem, can: EditorCan): CodeAction[] {
  return (problem.fixes ?? []).map((fix) => ({
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [toDiagnostic(lesson, problem)],
    ...(can.preferredActions && fix.preferred === true ? { isPreferred: true } : {}),
    edit: workspaceEdit(lesson, editsOfFix(lesson.document, problem.span.start, fix), can),
  }));
}

/** What was assumed can be written down by the keyboard too, not only by a double click on the ghost text. */
function writtenGhosts(lesson: OpenLesson, range: Range, can: EditorCan): CodeAction[] {
  return ghostsWithin(lesson, range).flatMap(({ offset, write }) =>
    write === undefined
      ? []
      : [
          {
            title: `Write “${write.trim()}” into the lesson`,
            kind: CodeActionKind.RefactorRewrite,
            edit: workspaceEdit(lesson, [{ span: { start: offset, end: offset }, text: write }], can),
          },
        ],
  );
}

/** True when the editor asks for everything, or for this kind or a kind above it (`refactor` includes `refactor.rewrite`). */
function wants(context: CodeActionContext, kind: string): boolean {
  return context.only === undefined || context.only.some((asked) => kind === asked || kind.startsWith(`${asked}.`));
}
