import type { LessonDocument } from '../lesson/document.ts';
import { spanInFile } from '../lesson/document.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { Source } from '../score/timeline.ts';
import { type Span, shifted } from '../text/span.ts';
import type { Block, BlockKind } from './block.ts';
import { blockId } from './block-id.ts';
import { escapeText } from './escape.ts';
import type { LegendSign } from './legend.ts';

/** A block before it is known where its entries stand: it can be kept while the text above it grows. */
export interface Draft {
  readonly id: string;
  readonly kind: BlockKind;
  readonly markup: string;
  readonly source: Source;
  readonly places: readonly Source[];
  readonly stale?: string;
}

/** What one item of the lesson puts on the sheet. */
export interface Drawn {
  readonly drafts: readonly Draft[];
  readonly signs: readonly LegendSign[];
  /** True where a shape is a stretch for the lesson's hand. */
  readonly stretches?: boolean;
  /** Why the item cannot be drawn as it is written now, in a sentence. Then `drafts` show its text. */
  readonly broken?: string;
}

/** The most that a block may weigh, so that one key never sends more. Unit: characters of markup. */
export const MOST_MARKUP = 20_000;

export function draft(kind: BlockKind, markup: string, source: Source, places: readonly Source[]): Draft {
  return { id: blockId(markup, undefined), kind, markup, source, places };
}

/** The same drawing, marked as out of date. */
export function staleDraft(last: Draft, stale: string): Draft {
  return { ...last, id: blockId(last.markup, stale), stale };
}

/** Attributes of an element that stands for a place in the lesson. */
export function placed(index: number): string {
  return `data-place="${index}" tabindex="0"`;
}

export function wholeOf(entry: Entry): Source {
  const { span } = entry.statement;
  return { entry, span };
}

/** An entry as it is written, without its comments: for what the sheet cannot draw yet. A sentence above says what it is. */
export function plainDraft(entry: Entry, sentence: string | undefined, kind: BlockKind = 'plain-text'): Draft {
  const lines = entry.lines.filter((line) => line.kind === 'statement' || line.kind === 'prose');
  const text = lines.map((line) => entry.text.slice(line.start, line.end)).join('\n');
  const shown = text.length > MOST_MARKUP / 4 ? `${text.slice(0, MOST_MARKUP / 4)} …` : text;
  const pre = `<pre class="sheet-plain" ${placed(0)}>${escapeText(shown)}</pre>`;
  const above = sentence === undefined ? '' : `<p class="sheet-facts">${escapeText(sentence)}</p>`;
  const source = wholeOf(entry);
  return draft(kind, `<div>${above}${pre}</div>`, source, [source]);
}

/** The smallest span that holds all of an entry's spans among the sources; those of other entries are left out. */
export function hullOf(sources: readonly Source[]): Source | undefined {
  const [first] = sources;
  if (first === undefined) return undefined;
  const own = sources.filter((source) => source.entry === first.entry);
  const start = Math.min(...own.map(({ span }) => span.start));
  const end = Math.max(...own.map(({ span }) => span.end));
  return { entry: first.entry, span: { start, end } };
}

/** Blocks made of drafts. A draft whose entries still stand where they stood gives the same block again. */
export interface Placer {
  /** The item knows where its own entries begin: the same entry may stand in a document twice. */
  place(
    document: LessonDocument,
    draft: Draft,
    item: { readonly entries: readonly Entry[]; readonly starts: readonly number[] },
  ): Block;
}

export function createPlacer(): Placer {
  const kept = new WeakMap<
    Draft,
    { readonly entries: readonly Entry[]; readonly starts: readonly number[]; readonly block: Block }
  >();
  return {
    place(document, from, item) {
      const startOf = (entry: Entry): number =>
        item.starts[item.entries.indexOf(entry)] ?? spanInFile(document, entry, { start: 0, end: 0 })?.start ?? 0;
      const known = kept.get(from);
      if (known?.entries.every((entry, index) => known.starts[index] === startOf(entry))) return known.block;
      const entries = [...new Set([from.source, ...from.places].map((source) => source.entry))];
      const inFile = ({ entry, span }: Source): Span => shifted(span, startOf(entry));
      const { id, kind, markup, stale } = from;
      const bare = { id, kind, markup, source: inFile(from.source), places: from.places.map(inFile) };
      const block: Block = stale === undefined ? bare : { ...bare, stale };
      kept.set(from, { entries, starts: entries.map(startOf), block });
      return block;
    },
  };
}
