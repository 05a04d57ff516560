import { longestMention } from '../model/mentions.ts';
import type { Scope } from '../model/scope.ts';
import { readChordName } from '../syntax/read-names.ts';
import type { FamilyStatement, Prose, ShowStatement } from '../syntax/statement.ts';
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
      );
    } else checkChordUse(report, scope, chord, told, 0);
  }
}

/** A family's progression and pinned chords exist, and its strings are on the instrument. */
export function checkFamily(report: Report, scope: Scope, statement: FamilyStatement): void {
  const strings = scope.edition().instrument.openStrings.length;
  if (statement.from !== undefined && scope.progression(statement.from.text) === undefined) {
    reportUnknownName(report, scope, statement.from, ['progression'], 'progression');
  }
  const ring = statement.ring?.ring;
  if (statement.ring !== undefined && ring?.kind === 'strings' && ring.strings.some((string) => string > strings)) {
    report('error', 'ring.no-string', statement.ring.span, `This instrument has ${strings} strings.`);
  }
  for (const keep of statement.keep) {
    if (keep.shape !== undefined && keep.shape.length !== strings) {
      report(
        keep.shape.length < strings ? 'hint' : 'error',
        keep.shape.length < strings ? 'shape.too-few-frets' : 'shape.too-many-frets',
        keep.span,
        `${keep.shape.length} of ${strings} frets.`,
      );
    }
  }
}
