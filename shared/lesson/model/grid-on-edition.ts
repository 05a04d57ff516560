import type { GridStatement } from '../syntax/statement.ts';
import type { Scope } from './scope.ts';

/**
 * What the scope's edition plays in the place of a grid of the lesson: what its block gives, the grid moved to its instrument, or the
 * grid itself. Nothing for a grid whose name another one took first.
 */
export function gridOnEdition(scope: Scope, statement: GridStatement): GridStatement | undefined {
  const { kind, name } = statement;
  const [own] = scope.editions();
  if (name === undefined || own?.grid(kind, name.text) !== statement) return undefined;
  return scope.grid(kind, name.text);
}

/** True where the edition's block gives a grid of this kind and name. */
export function isReplaced(scope: Scope, { kind, name }: GridStatement): boolean {
  const grids = scope.edition().block?.statement.grids ?? [];
  return grids.some((grid) => grid.kind === kind && grid.name?.text === name?.text);
}
