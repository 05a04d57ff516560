import { asksSomething, questionIn } from '../asked/question.ts';
import type { Scope } from '../model/scope.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type { Report } from './finding.ts';

/**
 * A question that could be answered and is not yet: students would not know what to make of it, so their pages are printed without it.
 * Or one that cannot be asked yet: what it still lacks is told where that is missing.
 */
export function checkQuestion(report: Report, scope: Scope, entry: Entry): void {
  const { statement } = entry;
  const asked = questionIn(scope, entry);
  if (!asksSomething(statement) || asked === undefined) return;
  if (asked.kind === 'not-yet') {
    // A name that nobody knows is told as such.
    const from = statement.kind === 'family' ? statement.from : statement.inside;
    if (from !== undefined && scope.progression(from.text) === undefined) return;
    report('hint', `${statement.kind}.not-yet`, asked.span, asked.message);
    return;
  }
  const span = statement.name?.span ?? statement.keyword.span;
  const name = statement.name?.text ?? 'this';
  if (statement.kind === 'family') {
    const said = `Which shapes ${name} has is still a question: pages for students leave it out. The sheet beside the lesson shows what was found; write down what you like.`;
    report('hint', 'family.open', span, said);
  } else {
    const said = `How ${name} goes is still a question: pages for students leave it out. The sheet beside the lesson shows what was found; write down what you like.`;
    report('hint', 'melody.open', span, said);
  }
}
