import { openDocument } from '../../../shared/lesson/document.ts';
import { formatDocument, formatEntryAt } from '../../../shared/lesson/format.ts';
import type { TextEdit } from '../../../shared/text/span.ts';
import { statementsIn } from '../syntax/reading.ts';

/** The lesson laid out. */
export function laidOut(text: string): string {
  return applied(text, formatDocument(openDocument(text)));
}

/** The lesson with only the statement at `$0` laid out; the marker is cut out. */
export function laidOutAtCursor(marked: string): string {
  const offset = marked.indexOf('$0');
  const text = marked.replace('$0', '');
  return applied(text, formatEntryAt(openDocument(text), offset));
}

/** The text after edits whose spans all count in the old text; they must not overlap. */
function applied(text: string, edits: readonly TextEdit[]): string {
  let end = text.length;
  return [...edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((edited, { span, text: written }) => {
      if (span.end > end || span.start > span.end) throw new Error(`Edits overlap at ${span.start}.`);
      end = span.start;
      return edited.slice(0, span.start) + written + edited.slice(span.end);
    }, text);
}

/** All that is not blank, with what the layout may change made the same: holds are `.`, keywords are in lower case. */
export function inkOf(text: string): string {
  return text
    .replace(/\s+/g, '')
    .toLowerCase()
    .replace(/[-‐‑‒–—−－]+/g, '.')
    .replace(/\.+/g, '.');
}

/** Every statement of a lesson without places, and without the blanks at the end of a line of prose, which are not printed. */
export function said(text: string): readonly string[] {
  return statementsIn(text).map((statement) => JSON.stringify(statement, undefined, 1).replace(/\s+"/g, '"'));
}
