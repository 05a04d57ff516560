import { type Diagnostic, DiagnosticSeverity } from 'vscode-languageserver';
import { problemsOf } from '../../shared/lesson/check/problems.ts';
import type { Problem, Severity } from '../../shared/text/problem.ts';
import type { OpenLesson } from '../open-lessons.ts';
import { toRange } from '../to-protocol.ts';

const SEVERITIES: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  notice: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

export function diagnostics(lesson: OpenLesson): Diagnostic[] {
  return problemsOf(lesson.document).map((problem) => toDiagnostic(lesson, problem));
}

export function toDiagnostic(lesson: OpenLesson, problem: Problem): Diagnostic {
  return {
    range: toRange(lesson.text, problem.span),
    severity: severityWhileTyping(problem),
    code: problem.code,
    source: 'handspan',
    message: problem.message,
  };
}

/** What is only half typed is no mistake yet for whoever types; checking from the shell and handing out count it as one. */
function severityWhileTyping({ severity, unfinished }: Problem): DiagnosticSeverity {
  return unfinished === true && severity !== 'hint' ? DiagnosticSeverity.Information : SEVERITIES[severity];
}
