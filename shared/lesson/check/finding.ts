import { begunNames } from '../../text/begun.ts';
import { listed } from '../../text/counted.ts';
import { nearest } from '../../text/nearest.ts';
import type { Fix, Problem, Severity } from '../../text/problem.ts';
import type { Span } from '../../text/span.ts';
import type { NameKind, Scope } from '../model/scope.ts';
import type { Word } from '../syntax/words.ts';

/** What else a finding says of itself; see `Problem`. */
export type Details = Pick<Problem, 'edition' | 'about' | 'unfinished'>;

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

/** A mistake, unless it is still being typed. */
export function unfinishedIf(isUnfinished: boolean): Details {
  return isUnfinished ? { unfinished: true } : {};
}

/** A fix that writes `text` in place of the span. */
export function write(span: Span, text: string, title = `Write ${text}`): readonly Fix[] {
  return [{ title, edits: [{ span, text }], preferred: true }];
}

/**
 * Tells that a name is not defined, and which defined name is nearest. `what` says what was looked for: `pattern or melody`. A name that
 * stands last on its line and that a defined one goes on from is only half typed; one whose line cannot be read is told there.
 */
export function reportUnknownName(
  report: Report,
  scope: Scope,
  word: Word,
  kinds: readonly NameKind[],
  what: string,
  standsLast = true,
): void {
  if (scope.isUnread(word.text)) return;
  const known = kinds.flatMap((kind) => scope.names(kind).split('\n')).filter((name) => name !== '');
  const begun = standsLast ? begunNames(word.text, known) : [];
  if (begun.length > 0) {
    const message = `There is no ${what} called ${word.text}; did you mean ${listed(begun, 'or')}?`;
    const fixes = begun.flatMap((name) => write(word.span, name));
    report('error', 'name.unknown', word.span, message, fixes, { unfinished: true });
    return;
  }
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
