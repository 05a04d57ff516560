import { type CodeAction, type CodeActionContext, CodeActionKind, type Range } from 'vscode-languageserver';
import type { ShapeChange, Writing } from '../../shared/assist/answers.ts';
import { askingsAt } from '../../shared/assist/ask-questions.ts';
import { editsOfFix } from '../../shared/assist/fix-edits.ts';
import { shapeChangesAt } from '../../shared/assist/shape-changes.ts';
import type { Answers } from '../../shared/lesson/asked/answer.ts';
import type { Question } from '../../shared/lesson/asked/question.ts';
import { problemsOf } from '../../shared/lesson/check/problems.ts';
import type { Problem } from '../../shared/text/problem.ts';
import type { EditorCan } from '../editor-can.ts';
import { toOffset, toSpan } from '../from-protocol.ts';
import type { OpenLesson } from '../open-lessons.ts';
import { workspaceEdit } from '../workspace-edit.ts';
import { toDiagnostic } from './diagnostics.ts';
import { knownWritings, questionAt } from './found-writings.ts';
import { ghostsWithin } from './inlay-hints.ts';
import { readingsOfSelection } from './read-text.ts';

export function codeActions(
  lesson: OpenLesson,
  range: Range,
  context: CodeActionContext,
  can: EditorCan,
  answers: Answers,
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
  const titles = new Set(actions.map(({ title }) => title));
  for (const { kind, title, edits } of [...rewritings(lesson, range), ...answersTo(lesson, range, answers)]) {
    if (!wants(context, kind) || titles.has(title)) continue;
    // The shape of a chord may be assumed at the cursor, told as a problem and shown as ghost text: it is written once.
    titles.add(title);
    actions.push({ title, kind, edit: workspaceEdit(lesson, edits, can) });
  }
  return actions;
}

/** Kinds of their own, so that a key can be bound to each. */
const REWRITINGS: Readonly<Record<ShapeChange['kind'], string>> = {
  write: CodeActionKind.RefactorRewrite,
  next: `${CodeActionKind.RefactorRewrite}.nextShape`,
  previous: `${CodeActionKind.RefactorRewrite}.previousShape`,
};

const READ_SELECTION = `${CodeActionKind.RefactorRewrite}.readText`;

/** What the cursor's question asks for and must be known before its actions can be given; nothing where they are not wanted. */
export function questionForActions(lesson: OpenLesson, range: Range, context: CodeActionContext): Question | undefined {
  return wants(context, WRITE_FOUND.family) || wants(context, WRITE_FOUND.tune)
    ? questionAt(lesson, toOffset(lesson.text, range.start))
    : undefined;
}

const WRITE_FOUND = {
  family: `${CodeActionKind.RefactorRewrite}.family`,
  tune: `${CodeActionKind.RefactorRewrite}.tune`,
} as const;

const ASK_FOR = {
  family: `${CodeActionKind.RefactorRewrite}.askForFamily`,
  tune: `${CodeActionKind.RefactorRewrite}.askForTune`,
} as const;

/** What was found for the question at the cursor, each to be written; and what can be asked about the progression there. */
function answersTo(
  lesson: OpenLesson,
  range: Range,
  answers: Answers,
): readonly (Writing & { readonly kind: string })[] {
  const offset = toOffset(lesson.text, range.start);
  const asked = questionAt(lesson, offset)?.kind ?? 'family';
  return [
    ...knownWritings(lesson, offset, answers).map((writing) => ({ ...writing, kind: WRITE_FOUND[asked] })),
    ...askingsAt(lesson.document, offset).map((asking) => ({ ...asking, kind: ASK_FOR[asking.kind] })),
  ];
}

/** What can be done to the chord at the cursor; and what is assumed there, for those who do not double-click on ghost text. */
function rewritings(lesson: OpenLesson, range: Range): readonly (Writing & { readonly kind: string })[] {
  const changes = shapeChangesAt(lesson.document, toOffset(lesson.text, range.start));
  return [
    ...changes.map((change) => ({ ...change, kind: REWRITINGS[change.kind] })),
    ...ghostsWithin(lesson, range).map(({ write }) => ({ ...write, kind: CodeActionKind.RefactorRewrite })),
    ...readingsOfSelection(lesson, range).map((reading) => ({ ...reading, kind: READ_SELECTION })),
  ];
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

/** True when the editor asks for everything, or for this kind or a kind above it (`refactor` includes `refactor.rewrite`). */
function wants(context: CodeActionContext, kind: string): boolean {
  return context.only === undefined || context.only.some((asked) => kind === asked || kind.startsWith(`${asked}.`));
}
