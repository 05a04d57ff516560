import type { Span } from '../../text/span.ts';
import type { FamilyRequest } from '../../voicing/family/request.ts';
import type { TuneRequest } from '../../voicing/tune/tune-problem.ts';
import { familyRequest } from '../model/family-request.ts';
import { createMemo } from '../model/memo.ts';
import type { Scope } from '../model/scope.ts';
import type { Entry } from '../syntax/read-entry.ts';
import type { FamilyStatement, Statement } from '../syntax/statement.ts';
import { type TuneStatement, tuneRequest } from './tune-request.ts';

/** What a lesson asks the tool to find. Equal keys have equal answers. */
export type Question =
  | { readonly kind: 'family'; readonly request: FamilyRequest; readonly key: string }
  | { readonly kind: 'tune'; readonly request: TuneRequest; readonly key: string };

/** A question as it stands in the lesson, or what it still lacks and where. */
export type AskedQuestion =
  | { readonly kind: 'question'; readonly question: Question }
  | { readonly kind: 'not-yet'; readonly message: string; readonly span: Span };

/** A statement that asks: a family of shapes, or a tune inside the shapes of a progression. */
export type AskingStatement = FamilyStatement | TuneStatement;

export function asksSomething(statement: Statement): statement is AskingStatement {
  return statement.kind === 'family' || (statement.kind === 'melody' && statement.inside !== undefined);
}

/** What is said of an exercise that plays what is still a question: there is nothing of it to be played yet. */
export function tellOpen(name: string, answers: 'families' | 'tunes'): string {
  return `${name} is still a question; choose one of its ${answers} on the sheet, and it can be played.`;
}

/** So many answers to one question are shown side by side. Common practice, no source: four can be compared at a glance. */
const MOST_FAMILIES_SHOWN = 4;

const memo = createMemo<AskedQuestion | undefined>();

/**
 * What the entry asks on the scope's edition; nothing where it asks nothing. The same value while nothing that it depends on changes.
 * Spans count from the start of the entry.
 */
export function questionIn(scope: Scope, entry: Entry): AskedQuestion | undefined {
  const { statement } = entry;
  if (!asksSomething(statement)) return undefined;
  return memo.get(entry, scope, scope.edition().name, (asked) => questionOf(asked, statement));
}

function questionOf(scope: Scope, statement: AskingStatement): AskedQuestion {
  if (statement.kind === 'family') {
    const asked = familyRequest(scope, statement);
    if (asked.kind === 'not-yet') return asked;
    const request = { ...asked.request, count: MOST_FAMILIES_SHOWN };
    return { kind: 'question', question: { kind: 'family', request, key: `family ${JSON.stringify(request)}` } };
  }
  const asked = tuneRequest(scope, statement);
  if (asked.kind === 'not-yet') return asked;
  const { request } = asked;
  return { kind: 'question', question: { kind: 'tune', request, key: `tune ${JSON.stringify(request)}` } };
}
