import type { LessonDocument } from '../lesson/document.ts';
import { spanInFile } from '../lesson/document.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { Source } from '../score/timeline.ts';
import { type Span, shifted } from '../text/span.ts';
import type { Block, BlockKind } from './block.ts';
import { blockId } from './block-id.ts';
import type { LegendSign } from './legend.ts';
import type { SheetContent, Written } from './sheet-content.ts';
import { markupOf } from './sheet-markup.ts';

/** A block before it is known where its entries stand: it can be kept while the text above it grows. */
export interface Draft {
  readonly kind: BlockKind;
  readonly content: SheetContent;
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
  /** True where it is only being worked out: what was drawn last stays until then, and is told once to be old. */
  readonly waits?: true;
}

/** The most that a block may weigh, so that one key never sends more. Unit: characters of markup. */
const MOST_MARKUP = 40_000;

export function draft(kind: BlockKind, content: SheetContent, source: Source, places: readonly Source[]): Draft {
  return { kind, content, source, places };
}

/** Marks the teacher's own words. */
export function writtenIn(language: string | undefined): Written {
  return language === undefined ? {} : { language };
}

/** The same drawing, marked as out of date. */
export function staleDraft(last: Draft, stale: string): Draft {
  return { ...last, stale };
}

/** True where none of the drafts weighs too much for one key. */
export function areLight(drafts: readonly Draft[]): boolean {
  return drafts.every(({ content }) => markupOf(content).length <= MOST_MARKUP);
}

/** The same for all that say the same, wherever it stands: the id of its block. */
export function draftId({ content, stale }: Draft): string {
  if (stale !== undefined) return blockId(markupOf(content), stale);
  const known = ids.get(content);
  if (known !== undefined) return known;
  const id = blockId(markupOf(content), undefined);
  ids.set(content, id);
  return id;
}

// Contents are values that never change.
const ids = new WeakMap<SheetContent, string>();

export function wholeOf(entry: Entry): Source {
  const { span } = entry.statement;
  return { entry, span };
}

/** An entry as it is written, without its comments: for what the sheet cannot draw yet. A sentence above says what it is. */
export function plainDraft(entry: Entry, sentence: string | undefined, kind: BlockKind = 'plain-text'): Draft {
  const lines = entry.lines.filter((line) => line.kind === 'statement' || line.kind === 'prose');
  const text = lines.map((line) => entry.text.slice(line.start, line.end)).join('\n');
  const shown = text.length > MOST_MARKUP / 4 ? `${text.slice(0, MOST_MARKUP / 4)} …` : text;
  const source = wholeOf(entry);
  const content: SheetContent = {
    kind: 'plain',
    ...(sentence === undefined ? {} : { sentence }),
    text: { text: shown, place: 0 },
  };
  return draft(kind, content, source, [source]);
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

/** Where a draft comes from in the lesson as it stands now. File offsets. */
export interface DraftSpans {
  readonly source: Span;
  readonly places: readonly Span[];
}

/** The item knows where its own entries begin: the same entry may stand in a document twice. */
interface DraftOwner {
  readonly entries: readonly Entry[];
  readonly starts: readonly number[];
}

/** Finds where drafts stand, and makes blocks of them. A draft whose entries still stand where they stood gives the same again. */
export interface Placer {
  spans(document: LessonDocument, draft: Draft, item: DraftOwner): DraftSpans;
  place(document: LessonDocument, draft: Draft, item: DraftOwner): Block;
}

export function createPlacer(): Placer {
  interface Kept {
    readonly entries: readonly Entry[];
    readonly starts: readonly number[];
    readonly spans: DraftSpans;
  }
  const kept = new WeakMap<Draft, Kept>();
  const blocks = new WeakMap<DraftSpans, Block>();
  const spans: Placer['spans'] = (document, draft, item) => {
    const startOf = (entry: Entry): number =>
      item.starts[item.entries.indexOf(entry)] ?? spanInFile(document, entry, { start: 0, end: 0 })?.start ?? 0;
    const known = kept.get(draft);
    if (known?.entries.every((entry, index) => known.starts[index] === startOf(entry))) return known.spans;
    const entries = [...new Set([draft.source, ...draft.places].map((source) => source.entry))];
    const inFile = ({ entry, span }: Source): Span => shifted(span, startOf(entry));
    const found = { source: inFile(draft.source), places: draft.places.map(inFile) };
    kept.set(draft, { entries, starts: entries.map(startOf), spans: found });
    return found;
  };
  return {
    spans,
    place(document, draft, item) {
      const found = spans(document, draft, item);
      const known = blocks.get(found);
      if (known !== undefined) return known;
      const { kind, content, stale } = draft;
      const bare = { id: draftId(draft), kind, markup: markupOf(content), ...found };
      const block: Block = stale === undefined ? bare : { ...bare, stale };
      blocks.set(found, block);
      return block;
    },
  };
}
