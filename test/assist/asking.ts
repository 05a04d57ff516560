import type { Card, Suggestion } from '../../shared/assist/answers.ts';
import { reshaped } from '../../shared/assist/chord-line.ts';
import { definitionAt, renameAt, renameSpanAt, usesAt } from '../../shared/assist/definition.ts';
import { editsOfFix } from '../../shared/assist/fix-edits.ts';
import { ghostsOf } from '../../shared/assist/ghosts.ts';
import { hoverAt } from '../../shared/assist/hover.ts';
import { foldsOf, outlineOf } from '../../shared/assist/outline.ts';
import { shapeChangesAt } from '../../shared/assist/shape-changes.ts';
import { suggestionCard, suggestionsAt } from '../../shared/assist/suggestions.ts';
import { problemsOf } from '../../shared/lesson/check/problems.ts';
import { type LessonDocument, openDocument } from '../../shared/lesson/document.ts';
import { parseInstrument } from '../../shared/neck/instruments.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { readFrets } from '../../shared/neck/shape-reader.ts';
import type { Span, TextEdit } from '../../shared/text/span.ts';
import { parseChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { shapesFor } from '../../shared/voicing/shapes.ts';

// The only callers of the answers to the editor. Snippets mark the cursor by $0, which is cut out.

/** A lesson without its cursor marker, and where that stood. */
function cutCursor(marked: string): { readonly document: LessonDocument; readonly offset: number } {
  const offset = marked.indexOf('$0');
  if (offset < 0 || marked.indexOf('$0', offset + 1) >= 0) throw new Error('A snippet has exactly one cursor.');
  return { document: openDocument(marked.slice(0, offset) + marked.slice(offset + 2)), offset };
}

function textOf(document: LessonDocument, span: Span | undefined): string | undefined {
  return span && document.text.slice(span.start, span.end);
}

/** The card at the cursor, and the words that it is about. */
export function hover(marked: string): { readonly about: string; readonly card: Card } | undefined {
  const { document, offset } = cutCursor(marked);
  const card = hoverAt(document, offset);
  return card && { about: textOf(document, card.span) ?? '', card };
}

/** The card's words without the backslashes that keep Markdown from reading them. */
export function hoverText(marked: string): string | undefined {
  return hover(marked)?.card.markdown.replace(/\\/g, '');
}

export function suggestions(marked: string): readonly Suggestion[] {
  const { document, offset } = cutCursor(marked);
  return suggestionsAt(document, offset);
}

export function labels(marked: string): readonly string[] {
  return suggestions(marked).map(({ label }) => label);
}

/** The first shapes of a chord on the usual ukulele, as the finder has them, for a hand that comes from another shape. */
export function shapesNear(chord: string, from: string): readonly string[] {
  const symbol = parseChordSymbol(chord);
  const near = readFrets(from);
  const instrument = parseInstrument('tenor ukulele, high G');
  if (!symbol.ok || !near.ok || !instrument.ok) throw new Error(`${chord} from ${from}`);
  return shapesFor(symbol.value, instrument.value, { near: near.value.shape, max: 12 }).map(({ shape }) =>
    printShape(shape),
  );
}

/** The lesson after choosing the suggestion with this label. */
export function chosen(marked: string, label: string): string {
  const { document, offset } = cutCursor(marked);
  const suggestion = suggestionsAt(document, offset).find((one) => one.label === label);
  if (suggestion === undefined) throw new Error(`${label} is not offered.`);
  return edited(document.text, [{ span: suggestion.replaces, text: suggestion.insert }]);
}

export function cardOf(
  lesson: string,
  kind: Suggestion['kind'],
  label: string,
  chord?: string,
  edition?: string,
): ReturnType<typeof suggestionCard> {
  return suggestionCard(openDocument(lesson), {
    kind,
    label,
    ...(chord === undefined ? {} : { chord }),
    ...(edition === undefined ? {} : { edition }),
  });
}

/** The line that defines the name at the cursor. */
export function definition(marked: string): string | undefined {
  const { document, offset } = cutCursor(marked);
  const span = definitionAt(document, offset);
  return span && lineAt(document.text, span.start);
}

/** The lines that hold the name at the cursor, in the order of the text. */
export function uses(marked: string): readonly string[] {
  const { document, offset } = cutCursor(marked);
  return usesAt(document, offset).map(({ start }) => lineAt(document.text, start));
}

/** The lesson with another name, or the sentence that refuses it. */
export function renamed(marked: string, name: string): string {
  const { document, offset } = cutCursor(marked);
  const outcome = renameAt(document, offset, name);
  return outcome.ok ? edited(document.text, outcome.value) : outcome.problem.message;
}

export function renameWord(marked: string): string | undefined {
  const { document, offset } = cutCursor(marked);
  return textOf(document, renameSpanAt(document, offset));
}

/** The lesson after the first fix of the first problem with this code. */
export function fixed(lesson: string, code: string): string {
  const document = openDocument(lesson);
  const problem = problemsOf(document).find((one) => one.code === code);
  const [fix] = problem?.fixes ?? [];
  if (problem === undefined || fix === undefined) throw new Error(`Nothing to mend: ${code}.`);
  return edited(lesson, editsOfFix(document, problem.span.start, fix));
}

/** The lesson after each fix of the first problem with this code. */
export function fixedBy(lesson: string, code: string): readonly string[] {
  const document = openDocument(lesson);
  const problem = problemsOf(document).find((one) => one.code === code);
  return (problem?.fixes ?? []).map((fix) => edited(lesson, editsOfFix(document, problem?.span.start ?? 0, fix)));
}

/** Titles of what can be done to the shape of the chord at the cursor. */
export function changes(marked: string): readonly string[] {
  const { document, offset } = cutCursor(marked);
  return shapeChangesAt(document, offset).map(({ title }) => title);
}

/** The lesson after one of them. */
export function changed(marked: string, kind: 'write' | 'next' | 'previous'): string {
  const { document, offset } = cutCursor(marked);
  const change = shapeChangesAt(document, offset).find((one) => one.kind === kind);
  if (change === undefined) throw new Error(`Nothing to do here: ${kind}.`);
  return edited(document.text, change.edits);
}

/** A chord line after it got another shape. */
export function lineWith(line: string, frets: string): string {
  const statement = openDocument(line).entries[0]?.statement;
  const shape = readFrets(frets);
  const edit = statement?.kind === 'chord' && shape.ok ? reshaped(statement, shape.value.shape) : undefined;
  return edit === undefined ? line : edited(line, [edit]);
}

/** For each ghost what writing it is called, and the lesson after it. */
export function ghostWritten(lesson: string): readonly (readonly [string, string])[] {
  return ghostsOf(openDocument(lesson)).map(({ write }) => [write.title, edited(lesson, write.edits)]);
}

/** Titles of the fixes of the first problem with this code; a star before the preferred one. */
export function fixes(lesson: string, code: string): readonly string[] {
  const problem = problemsOf(openDocument(lesson)).find((one) => one.code === code);
  return (problem?.fixes ?? []).map(({ title, preferred }) => (preferred === true ? `* ${title}` : title));
}

export function messages(lesson: string, code: string): readonly string[] {
  return problemsOf(openDocument(lesson)).flatMap((one) => (one.code === code ? [one.message] : []));
}

/** Codes of everything that is more than a hint. */
export function problemCodes(lesson: string): readonly string[] {
  return problemsOf(openDocument(lesson)).flatMap(({ code, severity }) => (severity === 'hint' ? [] : [code]));
}

/** `part Two > chords C F > …`: one line for every item, indented by its depth. */
export function outline(lesson: string): readonly string[] {
  const lines = (items: ReturnType<typeof outlineOf>, depth: string): readonly string[] =>
    items.flatMap(({ kind, name, detail, children }) => [
      `${depth}${kind} ${name}${detail === undefined ? '' : ` (${detail})`}`,
      ...lines(children, `${depth}  `),
    ]);
  return lines(outlineOf(openDocument(lesson)), '');
}

/** What is folded, each as its first and last line. */
export function folds(lesson: string): readonly string[] {
  return foldsOf(openDocument(lesson)).map(({ start, end }) => {
    const lines = lesson.slice(start, end).split('\n');
    return `${lines[0]} … ${lines.at(-1)?.trim()}`;
  });
}

/** The lesson with its ghost text in braces. */
export function ghosts(lesson: string): string {
  const document = openDocument(lesson);
  return edited(
    lesson,
    ghostsOf(document).map(({ offset, text }) => ({ span: { start: offset, end: offset }, text: `{${text}}` })),
  );
}

/** Every span that any answer gives at one place of a document, or about the whole of it. */
export function allSpans(document: LessonDocument, offset: number): readonly Span[] {
  const outcome = renameAt(document, offset, 'other-name');
  const spans = (items: ReturnType<typeof outlineOf>): readonly Span[] =>
    items.flatMap(({ span, nameSpan, children }) => [span, nameSpan, ...spans(children)]);
  return [
    ...[hoverAt(document, offset)?.span, definitionAt(document, offset), renameSpanAt(document, offset)].flatMap(
      (span) => span ?? [],
    ),
    ...suggestionsAt(document, offset).map(({ replaces }) => replaces),
    ...usesAt(document, offset),
    ...(outcome.ok ? outcome.value.map(({ span }) => span) : []),
    ...foldsOf(document),
    ...ghostsOf(document).flatMap(({ offset: start, write }) => [
      { start, end: start },
      ...write.edits.map(({ span }) => span),
    ]),
    ...shapeChangesAt(document, offset).flatMap(({ edits }) => edits.map(({ span }) => span)),
    ...spans(outlineOf(document)),
  ];
}

function lineAt(text: string, offset: number): string {
  const end = text.indexOf('\n', offset);
  return text.slice(text.lastIndexOf('\n', offset - 1) + 1, end < 0 ? text.length : end).trim();
}

function edited(text: string, edits: readonly TextEdit[]): string {
  return [...edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((sofar, { span, text: written }) => sofar.slice(0, span.start) + written + sofar.slice(span.end), text);
}
