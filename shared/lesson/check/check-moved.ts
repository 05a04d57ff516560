import type { Scope } from '../model/scope.ts';
import type { GridStatement } from '../syntax/statement.ts';
import type { Report } from './finding.ts';

/** What became of a tune that an edition plays on another instrument. */
export function checkMoved(_report: Report, _scope: Scope, _statement: GridStatement): void {}
