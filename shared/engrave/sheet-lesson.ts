import type { Difficulty } from '../hand/difficulty.ts';
import { type Answers, NO_ANSWERS } from '../lesson/asked/answer.ts';
import type { LessonDocument } from '../lesson/document.ts';
import type { Edition, Lesson } from '../lesson/model/lesson.ts';
import { createMemo } from '../lesson/model/memo.ts';
import { scopeOf } from '../lesson/model/scope-of-lesson.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { Source } from '../score/timeline.ts';
import type { SheetView } from './block.ts';
import type { LegendSign } from './legend.ts';
import { type Draft, type Drawn, draftId, staleDraft, wholeOf } from './sheet-draft.ts';
import { createMusicMemory } from './sheet-exercise.ts';
import { cautionDraft, headerDrafts } from './sheet-header.ts';
import { drawItem, type ItemContext } from './sheet-item.ts';
import { itemsOf, type SheetItem } from './sheet-items.ts';
import { createLegendMemory, type LegendMemory, legendDrafts } from './sheet-legend.ts';

/** What the next drawing of a lesson starts from. */
export interface DrawingMemory {
  readonly memo: ItemContext['memo'];
  readonly chords: ItemContext['chords'];
  readonly rows: ItemContext['rows'];
  readonly music: ItemContext['music'];
  /** What legends say, by their signs. */
  readonly legends: LegendMemory;
  /** The last drawing of each item that could be drawn, by its key, and by its kind and place among its kind. */
  readonly lastGood: ReadonlyMap<string, Drawn>;
  /** Drafts that belong to no single item, to be used again where they come out the same. */
  readonly loose: ReadonlyMap<string, Draft>;
}

/** A draft in its place on the sheet. */
export interface LessonDraft {
  readonly draft: Draft;
  /** Where its own entries begin. */
  readonly item: Pick<SheetItem, 'entries' | 'starts'>;
  /** What is played without a stop: shared by all drafts of one exercise. */
  readonly exercise?: Entry;
}

/** A lesson as drafts: its head, then the items in the order of the file, then what the signs mean. */
export interface DrawnLesson {
  readonly drafts: readonly LessonDraft[];
  readonly memory: DrawingMemory;
}

/** Draws a lesson for one view. With the memory of the drawing before, only what has changed is drawn. */
export function drawLesson(
  document: LessonDocument,
  { lesson, edition }: { readonly lesson: Lesson; readonly edition: Edition },
  view: SheetView,
  memory: DrawingMemory,
  answers: Answers = NO_ANSWERS,
): DrawnLesson {
  const { memo, chords, rows, music, legends, lastGood, loose } = memory;
  const paged = view.page === undefined ? 'flowing' : 'pages';
  const variant = [view.widthMm, view.leftHanded, view.dots ?? '', paged, edition.name].join('\n');
  const context: ItemContext = { scope: scopeOf(lesson, edition), view, variant, memo, chords, rows, music, answers };
  const good = new Map<string, Drawn>();
  const shown = itemsOf(document, edition).map((item): { item: SheetItem; drawn: Drawn } => {
    const drawn = drawItem(item, context);
    const last = drawn.broken === undefined ? undefined : lastGood.get(item.key);
    if (drawn.broken === undefined) good.set(item.key, drawn);
    else if (last !== undefined) good.set(item.key, last);
    return { item, drawn: last === undefined ? drawn : outOfDate(last, drawn, item) };
  });

  const difficulty = context.scope.difficulty();
  const head: Draft[] = [...headerDrafts(lesson, edition, difficulty)];
  const caution = cautionSource(shown, difficulty);
  if (caution !== undefined) head.push(cautionDraft(caution));
  const signs = new Set<LegendSign>();
  for (const { drawn } of shown) for (const sign of drawn.signs) signs.add(sign);
  const end = lastSource(document);
  const foot = end === undefined ? [] : legendDrafts(signs, edition.instrument.openStrings.length, end, legends);
  const kept = new Map<string, Draft>();
  const keep = (draft: Draft): Draft => {
    const id = draftId(draft);
    const known = loose.get(id);
    const same = known !== undefined && sameSources(known, draft) ? known : draft;
    kept.set(id, same);
    return same;
  };

  const drafts: LessonDraft[] = [
    ...head.map((draft) => ({ draft: keep(draft), item: NO_ITEM })),
    ...shown.flatMap(({ item, drawn }) => {
      const exercise = exerciseOf(item);
      return drawn.drafts.map((draft) => ({ draft, item, ...(exercise === undefined ? {} : { exercise }) }));
    }),
    ...foot.map((draft) => ({ draft: keep(draft), item: NO_ITEM })),
  ];
  return { drafts, memory: { memo, chords, rows, music, legends, lastGood: good, loose: kept } };
}

export function emptyDrawingMemory(): DrawingMemory {
  return {
    memo: createMemo(),
    chords: createMemo(),
    rows: new WeakMap(),
    music: createMusicMemory(),
    legends: createLegendMemory(),
    lastGood: new Map(),
    loose: new Map(),
  };
}

const NO_ITEM = { entries: [], starts: [] };

function exerciseOf({ kind, entries }: SheetItem): Entry | undefined {
  return kind === 'exercise' || kind === 'progression' || kind === 'pattern' || kind === 'melody'
    ? entries[0]
    : undefined;
}

/**
 * The last good drawing of an item, in the place of what is written now. Its places lead to the item as it is now: those of the
 * old text are gone.
 */
function outOfDate(last: Drawn, drawn: Drawn, item: SheetItem): Drawn {
  const [entry] = item.entries;
  const { broken, waits } = drawn;
  if (entry === undefined || broken === undefined) return last;
  if (last.drafts.length === 0) return drawn;
  const now: Source = { entry, span: entry.statement.span };
  const drafts = last.drafts.map((draft, index): Draft => {
    const moved = { ...draft, source: now, places: draft.places.map(() => now) };
    return waits === true && index > 0 ? moved : staleDraft(moved, broken);
  });
  return { ...last, drafts };
}

/** Where practice minutes or a stretch first stand; where only the difficulty is told, the first thing on the sheet. */
function cautionSource(
  shown: readonly { readonly item: SheetItem; readonly drawn: Drawn }[],
  difficulty: Difficulty | undefined,
): Source | undefined {
  for (const { item, drawn } of shown) {
    const [entry] = item.entries;
    if (entry === undefined) continue;
    if (entry.statement.kind === 'exercise' && entry.statement.minutes !== undefined)
      return { entry, span: entry.statement.minutes.span };
    if (drawn.stretches === true) return wholeOf(entry);
  }
  const first = shown.find(({ item }) => item.entries.length > 0)?.item.entries[0];
  return difficulty === undefined || first === undefined ? undefined : wholeOf(first);
}

function lastSource(document: LessonDocument): Source | undefined {
  const entry = document.entries.at(-1);
  return entry === undefined ? undefined : { entry, span: entry.statement.span };
}

function sameSources(a: Draft, b: Draft): boolean {
  const same = (x: Source, y: Source | undefined): boolean =>
    x.entry === y?.entry && x.span.start === y.span.start && x.span.end === y.span.end;
  return (
    same(a.source, b.source) &&
    a.places.length === b.places.length &&
    a.places.every((place, index) => same(place, b.places[index]))
  );
}
