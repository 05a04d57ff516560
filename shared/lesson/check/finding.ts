import { nearest } from '../../text/nearest.ts';
import type { Fix, Problem, Severity } from '../../text/problem.ts';
import type { Span } from '../../text/span.ts';
import type { NameKind, Scope } from '../model/scope.ts';
import type { Word } from '../syntax/words.ts';

/**
 * Collects what one check finds in one entry; spans count from the entry's start. `edition` names the further edition that it is
 * about.
 */
export type Report = (
  severity: Severity,
  code: string,
  span: Span,
  message: string,
  fixes?: readonly Fix[],
  edition?: string,
) => void;

export function reportInto(problems: Problem[]): Report {
  return (severity, code, span, message, fixes = [], edition = undefined) => {
    problems.push({
      code,
      span,
      severity,
      message,
      ...(fixes.length > 0 ? { fixes } : {}),
      ...(edition === undefined ? {} : { edition }),
    });
  };
}

/** The same, for what stands in the block of an edition. */
export function reportOn(report: Report, edition: string): Report {
  return (severity, code, span, message, fixes) => report(severity, code, span, message, fixes, edition);
}

/** A fix that writes `text` in place of the span. */
export function write(span: Span, text: string, title = `Write ${text}`): readonly Fix[] {
  return [{ title, edits: [{ span, text }], preferred: true }];
}

/** Tells that a name is not defined, and which defined name is nearest. `what` says what was looked for: `pattern or melody`. */
export function reportUnknownName(
  report: Report,
  scope: Scope,
  word: Word,
  kinds: readonly NameKind[],
  what: string,
): void {
  const known = kinds.flatMap((kind) => scope.names(kind).split('\n')).filter((name) => name !== '');
  const meant = nearest(word.text, known);
  report(
    'error',
    'name.unknown',
    word.span,
    meant === undefined
      ? `There is no ${what} called ${word.text} in this lesson.`
      : `There is no ${what} called ${word.text}; did you mean ${meant}?`,
    meant === undefined ? [] : write(word.span, meant),
  );
}
