import type { GridStatement } from '../syntax/statement.ts';
import { gridAtItsTimes } from './grid.ts';
import { createMemo } from './memo.ts';
import type { Scope } from './scope.ts';
import type { TimedGrid } from './timed-grid.ts';

const memo = createMemo<TimedGrid | undefined>();

/** A grid at its times on the scope's edition. Worked out anew only when something it is made of has changed. */
export function timedOn(scope: Scope, statement: GridStatement): TimedGrid | undefined {
  const entry = scope.entryOf(statement);
  if (entry === undefined) return gridAtItsTimes(scope, statement);
  // An edition's block holds several.
  const variant = `${scope.edition().name} ${statement.span.start}`;
  return memo.get(entry, scope, variant, (asked) => gridAtItsTimes(asked, statement));
}
