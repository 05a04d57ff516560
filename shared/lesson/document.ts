import { type Span, shifted, type TextEdit } from '../text/span.ts';
import type { ChordStyleName } from '../theory/chord-style.ts';
import { type Entry, readEntry } from './syntax/read-entry.ts';
import { entryStarts } from './syntax/split-entries.ts';
import { standsAlone } from './syntax/stands-alone.ts';

/** A lesson's text with every entry read. A value: an edit gives another document, which shares all entries it did not touch. */
export interface LessonDocument {
  readonly text: string;
  readonly entries: readonly Entry[];
  /** Offset of each entry in the text, ascending; the first is 0. */
  readonly starts: readonly number[];
  /** How chord names are written that are offered to the teacher. It is the teacher's habit and stands in no lesson. */
  readonly chordStyle: ChordStyleName;
  /**
   * Stands for all that entries say to each other. The same object while no edit has touched more than what stands alone, such as
   * prose: then every name still means what it meant.
   */
  readonly common: object;
}

/** Reads a whole lesson. */
export function openDocument(text: string, chordStyle: ChordStyleName = 'plain'): LessonDocument {
  const starts = [...entryStarts(text)];
  const entries = starts.map((start, index) => readEntry(text.slice(start, starts[index + 1] ?? text.length)));
  return { text, entries, starts, chordStyle, common: {} };
}

/**
 * The document after one edit, whose span counts in the old text. Only the entries that the edit touches are read again;
 * the outcome equals `openDocument` of the new text.
 */
export function editDocument(document: LessonDocument, edit: TextEdit): LessonDocument {
  const { chordStyle } = document;
  const start = clamp(edit.span.start, document.text.length);
  const end = Math.max(start, clamp(edit.span.end, document.text.length));
  const text = document.text.slice(0, start) + edit.text + document.text.slice(end);
  const shift = text.length - document.text.length;

  // What stands before an edit decides how it is read: prose joins prose above it, and a lone carriage return before the
  // edit may become half of a line end. So reading begins one entry early.
  const first = Math.max(0, entryIndexAt(document, start) - 1);
  const knownAfter = new Map<number, number>();
  for (let index = document.starts.length - 1; index > first; index--) {
    const known = document.starts[index] ?? 0;
    if (known <= end) break;
    knownAfter.set(known + shift, index);
  }

  const starts = document.starts.slice(0, first);
  const entries = document.entries.slice(0, first);
  // What is only pushed along by the edit reads as before, so its old reading serves, and with it all that was found from it.
  const replaced = document.entries.slice(first, document.entries.length - knownAfter.size);
  let from: number | undefined;
  const readTo = (to: number): void => {
    if (from === undefined) return;
    starts.push(from);
    const slice = text.slice(from, to);
    const found = replaced.findIndex((old) => old.text === slice);
    // Taken out of the list: an entry stands in a document once, as its place is looked up by it.
    const [same] = found < 0 ? [] : replaced.splice(found, 1);
    entries.push(same ?? readEntry(slice));
  };
  for (const entryStart of entryStarts(text, document.starts[first] ?? 0)) {
    readTo(entryStart);
    from = entryStart;
    const kept = knownAfter.get(entryStart);
    if (kept !== undefined) {
      for (let index = kept; index < document.entries.length; index++) {
        const entry = document.entries[index];
        const oldStart = document.starts[index];
        if (entry === undefined || oldStart === undefined) continue;
        entries.push(entry);
        starts.push(oldStart + shift);
      }
      const fresh = entries.slice(first, entries.length - (document.entries.length - kept));
      const common = commonAfter(document, document.entries.slice(first, kept), fresh);
      return { text, entries, starts, chordStyle, common };
    }
  }
  readTo(text.length);
  const common = commonAfter(document, document.entries.slice(first), entries.slice(first));
  return { text, entries, starts, chordStyle, common };
}

/** What stands for the common part when some entries were replaced by others. */
function commonAfter(document: LessonDocument, old: readonly Entry[], fresh: readonly Entry[]): object {
  const before = old.filter(({ statement }) => !standsAlone(statement));
  const now = fresh.filter(({ statement }) => !standsAlone(statement));
  const isSame = before.length === now.length && before.every((entry, at) => entry === now[at]);
  return isSame ? document.common : {};
}

/** Index of the entry that holds the offset; an offset between two belongs to the later one. */
export function entryIndexAt(document: LessonDocument, offset: number): number {
  let low = 0;
  let high = document.starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((document.starts[middle] ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}

function clamp(offset: number, length: number): number {
  return Math.max(0, Math.min(offset, length));
}

const entryStartsOf = new WeakMap<LessonDocument, ReadonlyMap<Entry, number>>();

/** A span counted from the start of one of the document's entries, as file offsets. Undefined for an entry of another document. */
export function spanInFile(document: LessonDocument, entry: Entry, span: Span): Span | undefined {
  let starts = entryStartsOf.get(document);
  if (starts === undefined) {
    starts = new Map(document.entries.map((known, index) => [known, document.starts[index] ?? 0]));
    entryStartsOf.set(document, starts);
  }
  const start = starts.get(entry);
  return start === undefined ? undefined : shifted(span, start);
}
