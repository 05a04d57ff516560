import { editsOfFix } from '../../../shared/assist/fix-edits.ts';
import { problemsOf } from '../../../shared/lesson/check/problems.ts';
import { openDocument } from '../../../shared/lesson/document.ts';
import type { Problem } from '../../../shared/text/problem.ts';
import type { Span, TextEdit } from '../../../shared/text/span.ts';

/** Brackets that no lesson holds: what stands between them is the place that a problem must mark. */
const MARKED = /⟦([^⟧]*)⟧/;

/** A snippet without its place brackets, and the places. */
export function cutPlaces(snippet: string): { readonly text: string; readonly places: readonly Span[] } {
  const places: Span[] = [];
  let text = snippet;
  for (let match = MARKED.exec(text); match !== null; match = MARKED.exec(text)) {
    const inside = match[1] ?? '';
    places.push({ start: match.index, end: match.index + inside.length });
    text = text.slice(0, match.index) + inside + text.slice(match.index + match[0].length);
  }
  return { text, places };
}

/** The snippet with brackets round every place, so that a failure reads like the table it stands in. */
export function markPlaces(text: string, places: readonly Span[]): string {
  return [...places]
    .sort((a, b) => b.start - a.start)
    .reduce(
      (marked, { start, end }) => `${marked.slice(0, start)}⟦${marked.slice(start, end)}⟧${marked.slice(end)}`,
      text,
    );
}

/** Every problem of a lesson, in the order of the text. */
export function problemsIn(text: string): readonly Problem[] {
  return problemsOf(openDocument(text));
}

/** `warning chord.name "F6"` for every problem that is more than a hint. */
export function faultsIn(text: string): readonly string[] {
  return problemsIn(text)
    .filter(({ severity }) => severity !== 'hint')
    .map(({ severity, code, span }) => `${severity} ${code} "${text.slice(span.start, span.end)}"`);
}

/** The same without what is only half typed, which the editor tells quietly. */
export function faultsWhileTyping(text: string): readonly string[] {
  return problemsIn(text)
    .filter(({ severity, unfinished }) => severity !== 'hint' && unfinished !== true)
    .map(({ severity, code, span }) => `${severity} ${code} "${text.slice(span.start, span.end)}"`);
}

/** The lesson after each fix of a problem, as the editor would apply it. */
export function fixedTexts(text: string, problem: Problem): readonly string[] {
  const document = openDocument(text);
  return (problem.fixes ?? []).map((fix) => applied(text, editsOfFix(document, problem.span.start, fix)));
}

/** The text after edits whose spans all count in the old text. */
function applied(text: string, edits: readonly TextEdit[]): string {
  return [...edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((edited, { span, text: written }) => edited.slice(0, span.start) + written + edited.slice(span.end), text);
}
