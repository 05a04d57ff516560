import { begunNames } from '../../text/begun.ts';
import { nearest } from '../../text/nearest.ts';
import type { Fix, Problem } from '../../text/problem.ts';
import { shifted } from '../../text/span.ts';
import type { Lesson } from '../model/lesson.ts';
import { SAID_ONCE } from '../syntax/header-kinds.ts';
import { tellCapoPlace, withCapoWritten } from '../syntax/misplaced-capo.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type { Statement, UnknownStatement } from '../syntax/statement.ts';
import { type Report, reportInto, unfinishedIf, write } from './finding.ts';

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
          [],
          unfinishedIf(statement.span.end === statement.keyword.span.end),
        );
      } else first.set(statement.kind, statement);
    }
    if (statement.kind === 'unknown') checkCapoPlace(report, lesson, entry, statement);
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
        const begun = begunNames(name.text, names).length > 0;
        const fixes = meant === undefined ? [] : write(name.span, meant);
        report('error', 'edition.unknown', name.span, message, fixes, unfinishedIf(begun));
      }
    }
    if (problems.length > 0) found.push({ entry, problems });
  }
  return found;
}

/** `capo 2` at the margin: told with the line it belongs on, and moved there; without such a line it makes one. */
function checkCapoPlace(report: Report, lesson: Lesson, entry: Entry, statement: UnknownStatement): void {
  const { keyword, name } = statement;
  // What is longer than that is prose, and told as such.
  if (keyword.text.toLowerCase() !== 'capo' || statement.span.end > (name ?? keyword).span.end) return;
  const fret = /^\d{1,2}$/.exec(name?.text ?? '')?.[0];
  const { document, settings } = lesson;
  const start = (of: Entry) => document.starts[document.entries.indexOf(of)] ?? 0;
  const instrument = document.entries.find(({ statement }) => statement.kind === 'for');
  const { span } = statement;
  let fixes: readonly Fix[] = [];
  if (fret !== undefined && instrument === undefined) {
    fixes = write(span, `for  ${withCapoWritten(settings.instrument.name, fret)}`);
  } else if (fret !== undefined && instrument?.statement.kind === 'for' && instrument.statement.value !== undefined) {
    const { text, span: place } = instrument.statement.value;
    // Spans count from this entry's start, and the other line stands before or behind it.
    const moved = withCapoWritten(text, fret);
    const line = { start: span.start, end: span.end + (entry.text.charAt(span.end) === '\n' ? 1 : 0) };
    const edits = [
      { span: shifted(place, start(instrument) - start(entry)), text: moved },
      { span: line, text: '' },
    ];
    fixes = [{ title: `Write it there: for ${moved}`, edits, preferred: true }];
  }
  report('error', 'capo.place', span, tellCapoPlace(fret), fixes);
}
