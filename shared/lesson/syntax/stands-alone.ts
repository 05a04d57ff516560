import type { Statement } from './statement.ts';

/** Statements that give no name and no setting, so that no other entry can ask for what they say. */
const ALONE: ReadonlySet<Statement['kind']> = new Set(['nothing', 'page', 'part', 'prose', 'show']);

/** True where an edit of the statement is the statement's own affair. */
export function standsAlone({ kind }: Statement): boolean {
  return ALONE.has(kind);
}
