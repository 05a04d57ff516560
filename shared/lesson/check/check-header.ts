import { nearest } from '../../text/nearest.ts';
import type { Problem } from '../../text/problem.ts';
import type { Lesson } from '../model/lesson.ts';
import { SAID_ONCE } from '../syntax/header-kinds.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type { Statement } from '../syntax/statement.ts';
import { reportInto, write } from './finding.ts';

const ONCE: ReadonlySet<Statement['kind']> = new Set(SAID_ONCE);

/** What concerns several entries at once: a header statement said twice, an edition block for no edition. */
export function checkHeader(
  lesson: Lesson,
): readonly { readonly entry: Entry; readonly problems: readonly Problem[] }[] {
  const first = new Map<Statement['kind'], Statement>();
  const found: { entry: Entry; problems: Problem[] }[] = [];
  for (const entry of lesson.document.entries) {
    const { statement } = entry;
    const problems: Problem[] = [];
    const report = reportInto(problems);
    if (ONCE.has(statement.kind) && 'keyword' in statement) {
      if (first.has(statement.kind)) {
        report(
          'warning',
          'header.twice',
          statement.span,
          `${statement.keyword.text} is said twice; the first one counts.`,
        );
      } else first.set(statement.kind, statement);
    }
    if (statement.kind === 'edition' && statement.name !== undefined) {
      const { name } = statement;
      const known = lesson.editions.slice(1).some((edition) => edition.block?.statement === statement);
      if (!known) {
        const names = lesson.editions.slice(1).map((edition) => edition.name);
        const meant = nearest(name.text, names) ?? (names.length === 1 ? names[0] : undefined);
        const message =
          names.length === 0
            ? `There is no further edition; an also line makes one: also baritone ukulele, same shapes, called ${name.text}.`
            : `No edition is called ${name.text}; there ${names.length === 1 ? 'is' : 'are'} ${names.join(', ')}.`;
        report('error', 'edition.unknown', name.span, message, meant === undefined ? [] : write(name.span, meant));
      }
    }
    if (problems.length > 0) found.push({ entry, problems });
  }
  return found;
}
