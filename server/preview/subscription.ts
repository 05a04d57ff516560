import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Block, SheetView } from '../../shared/engrave/block.ts';
import { type Sheet, sheetOf } from '../../shared/engrave/sheet.ts';
import type { Answers } from '../../shared/lesson/asked/answer.ts';
import { type Span, touches } from '../../shared/text/span.ts';
import { toOffset } from '../from-protocol.ts';
import type { OpenLesson } from '../open-lessons.ts';
import type {
  LocateAnswer,
  SheetUpdate,
  SourceAnswer,
  SourceQuestion,
  TextPosition,
  WireBlock,
  WriteQuestion,
} from '../protocol/preview.ts';
import { type Operation, operationsBetween } from '../protocol/sequence.ts';
import { toRange } from '../to-protocol.ts';

/** One panel that follows one lesson. `sent` is what its page shows once it has read everything on its way. */
export interface Subscription {
  readonly id: string;
  readonly uri: string;
  readonly view: SheetView;
  readonly sent?: Sent;
}

interface Sent {
  readonly revision: number;
  readonly version: number;
  readonly sheet: Sheet;
  /** Lines and columns of the text that the sheet was drawn from. */
  readonly text: TextDocument;
}

/** A first sheet, or one for a page that is new or out of step. */
export function fullUpdate(
  subscription: Subscription,
  lesson: OpenLesson,
  answers: Answers,
): { readonly subscription: Subscription; readonly update: SheetUpdate } {
  const sent = drawn(subscription, lesson, answers);
  const update: SheetUpdate = {
    kind: 'full',
    revision: sent.revision,
    version: lesson.version,
    blocks: sent.sheet.blocks.map(toWire),
    editions: sent.sheet.editions,
  };
  return { subscription: { ...subscription, sent }, update };
}

/** What has changed since the last update; a full one if there was none. */
export function nextUpdate(
  subscription: Subscription,
  lesson: OpenLesson,
  answers: Answers,
): { readonly subscription: Subscription; readonly update: SheetUpdate } {
  const before = subscription.sent;
  if (before === undefined) return fullUpdate(subscription, lesson, answers);
  const sent = drawn(subscription, lesson, answers);
  const operations = operationsBetween(before.sheet.blocks, sent.sheet.blocks);
  const update: SheetUpdate = {
    kind: 'patch',
    from: before.revision,
    revision: sent.revision,
    version: lesson.version,
    operations: operations.map(toWireOperation),
    ...(sameEditions(before.sheet, sent.sheet) ? {} : { editions: sent.sheet.editions }),
  };
  return { subscription: { ...subscription, sent }, update };
}

function drawn(subscription: Subscription, lesson: OpenLesson, answers: Answers): Sent {
  const { sent, view } = subscription;
  return {
    revision: (sent?.revision ?? 0) + 1,
    version: lesson.version,
    sheet: sheetOf(lesson.document, view, sent?.sheet, answers),
    text: lesson.text,
  };
}

/** Where a marked element of the newest sheet, or a whole block of it, comes from. */
export function sourceOf(subscription: Subscription, question: SourceQuestion): SourceAnswer {
  const { sent, uri } = subscription;
  if (sent === undefined || sent.revision !== question.revision) return { kind: 'outdated' };
  const block = sent.sheet.blocks[question.slot];
  const span = question.place === undefined ? block?.source : block?.places[question.place];
  return span === undefined ? { kind: 'unknown' } : { kind: 'found', uri, ...toRange(sent.text, span) };
}

/** The question that a block of the newest sheet comes from, as an offset in the text of its version; undefined where it is an older one. */
export function questionOffset(
  { sent }: Subscription,
  lesson: OpenLesson,
  { revision, slot }: Pick<WriteQuestion, 'revision' | 'slot'>,
): number | undefined {
  if (sent === undefined || sent.revision !== revision || sent.version !== lesson.version) return undefined;
  const block = sent.sheet.blocks[slot];
  // What is shown while another answer is looked for is the old one.
  return block?.kind === 'candidate' ? block.source.start : undefined;
}

/**
 * The block of the newest sheet that the cursor stands in: the one with the shortest source around it. Where none has, the
 * first that draws something from there: a progression, for instance, is drawn where an exercise plays it.
 */
export function blockAt(subscription: Subscription, position: TextPosition): LocateAnswer {
  const { sent } = subscription;
  if (sent === undefined) return { kind: 'unknown' };
  const offset = toOffset(sent.text, position);
  const { blocks } = sent.sheet;
  const { revision } = sent;
  const sources = blocks.map(({ source }) => [source]);
  const places = blocks.map(({ places }) => places);
  if (subscription.view.page !== undefined) {
    // A page reaches over much of the lesson: what is marked on it says more.
    const marked = shortestAround(offset, places);
    if (marked !== undefined) return { kind: 'block', revision, ...marked };
    const page = shortestAround(offset, sources);
    return page === undefined ? { kind: 'outside', revision } : { kind: 'block', revision, slot: page.slot };
  }
  const found = shortestAround(offset, sources) ?? shortestAround(offset, places);
  return found === undefined ? { kind: 'outside', revision } : { kind: 'block', revision, slot: found.slot };
}

/** Which list holds the shortest span around the offset, and where in it; the first of several. Spans without text stand for no writing. */
function shortestAround(
  offset: number,
  lists: readonly (readonly Span[])[],
): { readonly slot: number; readonly place: number } | undefined {
  let found: { readonly slot: number; readonly place: number } | undefined;
  let shortest = Number.POSITIVE_INFINITY;
  lists.forEach((spans, slot) => {
    spans.forEach((span, place) => {
      const length = span.end - span.start;
      if (length === 0 || length >= shortest || !touches(span, offset)) return;
      found = { slot, place };
      shortest = length;
    });
  });
  return found;
}

function sameEditions(before: Sheet, now: Sheet): boolean {
  return (
    before.editions.length === now.editions.length &&
    before.editions.every(({ name, label }, index) => {
      const other = now.editions[index];
      return name === other?.name && label === other.label;
    })
  );
}

function toWire(block: Block): WireBlock {
  const { kind, markup, stale } = block;
  return stale === undefined ? { kind, markup } : { kind, markup, stale };
}

function toWireOperation(operation: Operation<Block>): Operation<WireBlock> {
  return operation.kind === 'insert' || operation.kind === 'replace'
    ? { ...operation, block: toWire(operation.block) }
    : operation;
}
