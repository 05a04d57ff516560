import { plus, ZERO } from '../../theory/rational.ts';
import { turnsOf } from '../model/placements.ts';
import type { Scope } from '../model/scope.ts';
import { type Part, partsOf } from '../model/turns.ts';
import type { ExerciseStatement } from '../syntax/statement.ts';
import type { ListMember } from '../syntax/words.ts';
import { saidAt } from './check-late-chord.ts';
import { faultTogether } from './check-moments.ts';
import type { Report } from './finding.ts';

/**
 * `roll + strum`: what one player cannot do at once although each pattern can be played. Told once for each pair, as a warning: two
 * players may share them.
 */
export function checkTogether(report: Report, scope: Scope, statement: ExerciseStatement): void {
  const { each } = statement;
  const told = new Set<string>();
  for (const { members } of [...statement.with, ...(each === undefined ? [] : [each]), ...statement.at]) {
    for (const member of members) {
      const names = member.names.map(({ text }) => text).join(' + ');
      if (member.names.length < 2 || told.has(names)) continue;
      told.add(names);
      const parts = partsOfMember(scope, statement, member);
      const fault = faultTogether(scope, parts);
      const use = fault && member.names.find(({ text }) => text === fault.part.grid.statement.name?.text);
      if (fault === undefined || use === undefined) continue;
      const said = saidAt(fault.part, plus(fault.part.start, fault.mark.at));
      const where = said === undefined ? '' : `, on ${said}`;
      const message = `${names} cannot be played by one hand${where}: ${fault.message}`;
      report('warning', fault.code, use.span, message, [], { about: [`${names} ${fault.about}`] });
    }
  }
}

function partsOfMember(scope: Scope, { over }: ExerciseStatement, member: ListMember): readonly Part[] {
  const [grids = []] = turnsOf(scope, [{ ...member, times: 1 }]);
  // Over single chords each begins on its count in a bar of its own.
  return over === undefined ? partsOf(grids, ZERO) : grids.map((grid) => ({ grid, start: grid.startsAt }));
}
