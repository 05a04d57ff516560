import { nearest } from '../../text/nearest.ts';
import type { Fix, Problem, Severity } from '../../text/problem.ts';
import type { Span } from '../../text/span.ts';
import type { NameKind, Scope } from '../model/scope.ts';
import type { Word } from '../syntax/words.ts';

/** What else a finding says of itself; see `Problem`. */
type Details = Pick<Problem, 'edition' | 'about'>;

/** Collects what one check finds in one entry; spans count from the entry's start. */
export type Report = (
  severity: Severity,
  code: string,
  span: Span,
  message: string,
  fixes?: readonly Fix[],
  details?: Details,
) => void;

export function reportInto(problems: Problem[]): Report {
  return (severity, code, span, message, fixes = [], details = {}) => {
    problems.push({
      code,
      span,
      severity,
      message,
      ...(fixes.length > 0 ? { fixes } : {}),
      ...details,
    });
  };
}

/** The same, for what stands in the block of an edition. */
export function reportOn(report: Report, edition: string): Report {
  return (severity, code, span, message, fixes, details) =>
    report(severity, code, span, message, fixes, { ...details, edition });
}

/** A finding whose place says all that it is about: its message only adds figures of the instrument. */
export const ABOUT_ITS_PLACE: Details = { about: [] };

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
