import { type LessonDocument, openDocument } from '../../../shared/lesson/document.ts';
import type { Mark } from '../../../shared/lesson/syntax/marks.ts';
import { type Entry, readEntry } from '../../../shared/lesson/syntax/read-entry.ts';
import type { RowKind, Statement } from '../../../shared/lesson/syntax/statement.ts';

/** The one entry of a snippet, its statement without the places where things stand, and its problems as `error code "words"`. */
export interface Read {
  readonly entry: Entry;
  readonly says: Readonly<Record<string, unknown>>;
  readonly problems: readonly string[];
}

/** Reads a snippet of one entry. */
export function read(snippet: string): Read {
  const entry = readEntry(snippet);
  return {
    entry,
    says: withoutPlaces(entry.statement) as Readonly<Record<string, unknown>>,
    problems: problemsIn(entry),
  };
}

/** `error chord.name-unknown "Zm"` for every problem of an entry. */
export function problemsIn({ text, problems }: Entry): readonly string[] {
  return problems.map(({ severity, code, span }) => `${severity} ${code} "${text.slice(span.start, span.end)}"`);
}

/** The text after the first fix of the first problem that has one. */
export function fixed(snippet: string): string {
  const { problems } = readEntry(snippet);
  const [fix] = problems.flatMap((problem) => problem.fixes ?? []);
  let text = snippet;
  for (const { span, text: written } of [...(fix?.edits ?? [])].reverse())
    text = text.slice(0, span.start) + written + text.slice(span.end);
  return text;
}

/** What one word in a row of this kind is read as. */
export function markOf(kind: RowKind, word: string): Mark | undefined {
  const block = kind === 'tune' ? 'melody' : 'pattern';
  const { statement } = readEntry(`${block}  x\n  ${kind}  ${word}`);
  if (statement.kind !== 'pattern' && statement.kind !== 'melody') return undefined;
  return withoutPlaces(statement.lines[0]?.rows[0]?.cells[0]?.mark) as Mark | undefined;
}

/** The value without spans, so that two readings can be compared by what they say. A word becomes its text. */
function withoutPlaces(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutPlaces);
  if (typeof value !== 'object' || value === null) return value;
  if (isWord(value)) return value.text;
  const entries = Object.entries(value).filter(
    ([name]) => name !== 'span' && name !== 'fretSpans' && name !== 'keyword',
  );
  return Object.fromEntries(entries.map(([name, inner]) => [name, withoutPlaces(inner)]));
}

/** A word of the lesson, whatever else the reader keeps with it. */
function isWord(value: object): value is { readonly text: string } {
  const names = Object.keys(value).filter((name) => name !== 'span' && name !== 'kind');
  const isPiece = !('kind' in value) || value.kind === 'word';
  return 'span' in value && names.length === 1 && names[0] === 'text' && isPiece;
}

/** Every statement of a lesson, without places. */
export function statementsIn(text: string): readonly unknown[] {
  return openDocument(text).entries.map(({ statement }) => withoutPlaces(statement));
}

/** All tokens of a lesson joined: must be the lesson. */
export function joinedTokens(document: LessonDocument): string {
  return document.entries
    .flatMap(({ text, lines }) => lines.flatMap(({ tokens }) => tokens.map(({ start, end }) => text.slice(start, end))))
    .join('');
}

/** What is wrong with the places in an entry: spans out of range, turned round, or outside of what holds them. Empty when all is well. */
export function misplaced(entry: Entry): readonly string[] {
  const faults: string[] = [];
  const { length } = entry.text;
  let at = 0;
  for (const { start, end, tokens } of entry.lines) {
    if (start !== at || end < start) faults.push(`line at ${start}`);
    for (const token of tokens) {
      if (token.start !== at || token.end <= token.start) faults.push(`${token.kind} at ${token.start}`);
      at = token.end;
    }
  }
  if (at !== length) faults.push(`tokens end at ${at} of ${length}`);
  walk(entry.statement, { start: 0, end: length }, entry.statement.kind, faults);
  for (const { code, span, fixes } of entry.problems) {
    check(span, { start: 0, end: length }, code, faults);
    for (const { span: edited } of (fixes ?? []).flatMap(({ edits }) => edits))
      check(edited, { start: 0, end: length }, `${code} fix`, faults);
  }
  return faults;
}

interface Place {
  readonly start: number;
  readonly end: number;
}

const FROM_THE_WORD: Place = { start: 0, end: Number.POSITIVE_INFINITY };

function walk(value: unknown, around: Place, path: string, faults: string[]): void {
  if (Array.isArray(value)) {
    for (const [index, item] of value.entries()) walk(item, around, `${path}[${index}]`, faults);
    return;
  }
  if (typeof value !== 'object' || value === null) return;
  const record = value as Readonly<Record<string, unknown>>;
  const own = isPlace(record) ? record : isPlace(record.span) ? record.span : undefined;
  if (own !== undefined) check(own, around, path, faults);
  for (const [name, inner] of Object.entries(record)) {
    // A fault counts from the word that was read; a bar sign stands between two bars and belongs to both.
    const within = name === 'fault' ? FROM_THE_WORD : name === 'opens' || name === 'closes' ? around : (own ?? around);
    if (name !== 'span') walk(inner, within, `${path}.${name}`, faults);
  }
}

function check(place: Place, around: Place, path: string, faults: string[]): void {
  if (place.start > place.end || place.start < around.start || place.end > around.end) {
    faults.push(`${path} ${place.start}–${place.end} in ${around.start}–${around.end}`);
  }
}

function isPlace(value: unknown): value is Place {
  return typeof value === 'object' && value !== null && 'start' in value && 'end' in value;
}

export function kindsOf(text: string): readonly Statement['kind'][] {
  return openDocument(text).entries.map(({ statement }) => statement.kind);
}
