import { tuneRequest } from '../lesson/asked/tune-request.ts';
import { entryIndexAt, type LessonDocument } from '../lesson/document.ts';
import { familyRequest } from '../lesson/model/family-request.ts';
import { freeName } from '../lesson/model/free-name.ts';
import { createMemo } from '../lesson/model/memo.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { FamilyStatement, ProgressionStatement } from '../lesson/syntax/statement.ts';
import type { Word } from '../lesson/syntax/words.ts';
import { type Span, shifted } from '../text/span.ts';
import type { Writing } from './answers.ts';
import { lineEnd } from './chord-line.ts';
import { scopeIn } from './entry-scope.ts';
import { openStringsFor } from './ringing-strings.ts';

/** Something that the tool can be asked about a progression. */
export interface Asking extends Writing {
  readonly kind: 'family' | 'tune';
}

interface Asked {
  readonly kind: Asking['kind'];
  readonly lines: readonly string[];
}

const memo = createMemo<readonly Asked[]>();

/**
 * What can be asked about the progression at the offset: a family of its chords, a tune inside its shapes. Each is written below it as a
 * statement that can be changed. Nothing where there is no progression, or where it is not yet such that an answer could be found.
 */
export function askingsAt(document: LessonDocument, offset: number): readonly Asking[] {
  const index = entryIndexAt(document, offset);
  const entry = document.entries[index];
  const start = document.starts[index];
  if (entry === undefined || start === undefined || entry.statement.kind !== 'progression') return [];
  const { statement } = entry;
  if (statement.name === undefined || offset > start + statement.span.end) return [];
  const scope = scopeIn(document, entry);
  const end = lineEnd(document.text);
  const at: Span = shifted({ start: statement.span.end, end: statement.span.end }, start);
  return memo
    .get(entry, scope, '', (recorded) => askingsOf(recorded, entry, statement, statement.name))
    .map(({ kind, lines }) => ({
      kind,
      title: kind === 'family' ? 'Ask for a family of these chords' : 'Ask for a tune inside these shapes',
      edits: [{ span: at, text: `${end}${end}${lines.join(end)}` }],
    }));
}

function askingsOf(
  scope: Scope,
  { text }: Entry,
  { keyword, span }: ProgressionStatement,
  name: Word | undefined,
): readonly Asked[] {
  if (name === undefined) return [];
  const family: FamilyStatement = { kind: 'family', keyword, span, from: name, allow: [], keep: [], prose: [] };
  const asked = familyRequest(scope, family);
  const tune = tuneRequest(scope, { kind: 'melody', keyword, span, inside: name, lines: [], prose: [] });
  return [
    ...(asked.kind === 'request' && text !== ''
      ? [{ kind: 'family' as const, lines: familyLines(scope, name.text, asked.request) }]
      : []),
    ...(tune.kind === 'request' ? [{ kind: 'tune' as const, lines: tuneLines(scope, name.text) }] : []),
  ];
}

/** What a new family is called until its teacher finds a better word. */
const NEW_FAMILY = 'walk';

function familyLines(scope: Scope, from: string, request: Parameters<typeof openStringsFor>[0]): readonly string[] {
  const { ring, allow } = openStringsFor(request);
  const { frets, capoFret } = request.instrument;
  const name = freeName(scope, NEW_FAMILY, ['family', 'progression']);
  return [
    `family  ${name}`,
    `  from    ${from}`,
    ...(ring.length === 0 ? [] : [`  ring    ${ring.join(' ')}`]),
    `  within  0 to ${Math.min(HIGHEST_FRET, frets - capoFret)}`,
    ...(allow.length === 0 ? [] : [`  allow   ${allow.join(' ')}`]),
  ];
}

/** Beyond it the body is in the way of most hands. Unit: frets. Common practice, no source: the octave. */
const HIGHEST_FRET = 12;

function tuneLines(scope: Scope, inside: string): readonly string[] {
  const name = freeName(scope, `${inside}-tune`, ['melody', 'pattern', 'progression']);
  return [`melody  ${name}`, `  inside  ${inside}`, '  arch'];
}
