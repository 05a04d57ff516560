import { longestMention } from '../model/mentions.ts';
import type { Scope } from '../model/scope.ts';
import { readChordName } from '../syntax/read-names.ts';
import type { Prose, ShowStatement } from '../syntax/statement.ts';
import { checkChordUse } from './check-progression.ts';
import { type Report, reportUnknownName } from './finding.ts';

/** Every `@word` of prose names something that the lesson or the trade knows. */
export function checkProse(report: Report, scope: Scope, prose: readonly Prose[]): void {
  for (const { mentions } of prose) {
    for (const mention of mentions) {
      if (longestMention(scope, mention) !== undefined) continue;
      report(
        'hint',
        'mention.unknown',
        { start: mention.span.start - 1, end: mention.span.end },
        `@${mention.text} is neither a chord, a shape nor a name of this lesson; it is printed as it stands.`,
      );
    }
  }
}

/** What `show` prints exists. */
export function checkShow(report: Report, scope: Scope, statement: ShowStatement): void {
  const told = new Set<string>();
  for (const word of statement.names.flatMap((member) => member.names)) {
    const named = scope.grid('pattern', word.text) ?? scope.grid('melody', word.text) ?? scope.progression(word.text);
    if (named !== undefined) continue;
    const chord = readChordName(word);
    if (chord.symbol === undefined && scope.chord(word.text) === undefined) {
      reportUnknownName(
        report,
        scope,
        word,
        ['chord', 'pattern', 'melody', 'progression'],
        'chord, pattern or progression',
        word.span.end === statement.span.end,
      );
    } else checkChordUse(report, scope, chord, told, 0);
  }
}
