import { movedGrid } from '../model/moved-grid.ts';
import type { Scope } from '../model/scope.ts';
import type { GridStatement } from '../syntax/statement.ts';
import type { Report } from './finding.ts';

/** What became of the strings and the tune of a grid of the lesson on the scope's edition, where that is in the same key. */
export function checkMoved(report: Report, scope: Scope, statement: GridStatement): void {
  if (scope.edition().keeps !== 'key') return;
  for (const { severity, code, span, message } of movedGrid(scope, statement).remarks) {
    report(severity, code, span, message);
  }
}
