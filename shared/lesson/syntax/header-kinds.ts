import type { Statement } from './statement.ts';

/** Statements of the header that a lesson has one of. */
export const SAID_ONCE = [
  'lesson',
  'by',
  'dated',
  'for',
  'key',
  'meter',
  'feel',
  'tempo',
  'level',
  'hand',
  'language',
] as const;

export type HeaderKind = (typeof SAID_ONCE)[number] | 'also' | 'corrected';

/** Everything that belongs to a lesson's head, wherever in the file it stands. */
export const HEADER_KINDS: ReadonlySet<Statement['kind']> = new Set([...SAID_ONCE, 'also', 'corrected']);
