import type { Difficulty } from '../hand/difficulty.ts';
import type { LessonDocument } from '../lesson/document.ts';
import { lessonDifficulty } from '../lesson/model/fingerings.ts';
import { type Edition, type Lesson, lessonOf } from '../lesson/model/lesson.ts';
import { createMemo } from '../lesson/model/memo.ts';
import { scopeOf } from '../lesson/model/scope-of-lesson.ts';
import type { Source } from '../score/timeline.ts';
import type { Block, SheetView } from './block.ts';
import type { LegendSign } from './legend.ts';
import { createPlacer, type Draft, type Drawn, draftId, type Placer, staleDraft, wholeOf } from './sheet-draft.ts';
import { cautionDraft, headerDrafts } from './sheet-header.ts';
import { drawItem, type ItemContext } from './sheet-item.ts';
import { itemsOf, type SheetItem } from './sheet-items.ts';
import { legendDrafts } from './sheet-legend.ts';

/** A form of the lesson that the reader may choose. */
export interface EditionChoice {
  /** What `SheetView.edition` calls it. */
  readonly name: string;
  readonly label: string;
}

/** A lesson drawn for one view. It remembers what it is made of, so that the next sheet draws only what has changed. */
export interface Sheet {
  readonly blocks: readonly Block[];
  /** The lesson's own form first. */
  readonly editions: readonly EditionChoice[];
  readonly memory: SheetMemory;
}

/** What the next sheet starts from. */
export interface SheetMemory {
  readonly memo: ItemContext['memo'];
  readonly chords: ItemContext['chords'];
  readonly rows: ItemContext['rows'];
  readonly music: ItemContext['music'];
  readonly placer: Placer;
  /** The last drawing of each item that could be drawn, by its key, and by its kind and place among its kind. */
  readonly lastGood: ReadonlyMap<string, Drawn>;
  /** Drafts that belong to no single item, to be used again where they come out the same. */
  readonly loose: ReadonlyMap<string, Draft>;
}

/**
 * The sheet of a lesson: its head, then the items in the order of the file, then what the signs mean. With the sheet before, only
 * what has changed is drawn, and the blocks equal those of a sheet drawn afresh; an item whose text is broken now keeps its last
 * good blocks, marked as out of date, where there are any.
 */
export function sheetOf(document: LessonDocument, view: SheetView, previous?: Sheet): Sheet {
  const lesson = lessonOf(document);
  const edition = lesson.editions.find((candidate) => candidate.name === view.edition) ?? lesson.editions[0];
  const { memo, chords, rows, music, placer, lastGood, loose } = previous?.memory ?? emptyMemory();
  const variant = [view.widthMm, view.leftHanded, view.dots ?? '', edition.name].join('\n');
  const context: ItemContext = { scope: scopeOf(lesson, edition), view, variant, memo, chords, rows, music };
  const good = new Map<string, Drawn>();
  const shown = itemsOf(document, edition).map((item): { item: SheetItem; drawn: Drawn } => {
    const drawn = drawItem(item, context);
    const last = drawn.broken === undefined ? undefined : lastGood.get(item.key);
    if (drawn.broken === undefined) good.set(item.key, drawn);
    else if (last !== undefined) good.set(item.key, last);
    return { item, drawn: last === undefined ? drawn : outOfDate(last, drawn, item) };
  });

  const difficulty = lessonDifficulty(context.scope);
  const head: Draft[] = [...headerDrafts(lesson, edition, difficulty)];
  const caution = cautionSource(shown, difficulty);
  if (caution !== undefined) head.push(cautionDraft(caution));
  const signs = new Set<LegendSign>();
  for (const { drawn } of shown) for (const sign of drawn.signs) signs.add(sign);
  const end = lastSource(document);
  const foot = end === undefined ? [] : legendDrafts(signs, edition.instrument.openStrings.length, end);
  const kept = new Map<string, Draft>();
  const keep = (draft: Draft): Draft => {
    const id = draftId(draft);
    const known = loose.get(id);
    const same = known !== undefined && sameSources(known, draft) ? known : draft;
    kept.set(id, same);
    return same;
  };

  const blocks = [
    ...head.map((draft) => placer.place(document, keep(draft), NO_ITEM)),
    ...shown.flatMap(({ item, drawn }) => {
      return drawn.drafts.map((draft) => placer.place(document, draft, item));
    }),
    ...foot.map((draft) => placer.place(document, keep(draft), NO_ITEM)),
  ];
  return {
    blocks,
    editions: choicesOf(lesson),
    memory: { memo, chords, rows, music, placer, lastGood: good, loose: kept },
  };
}

function emptyMemory(): SheetMemory {
  return {
    memo: createMemo(),
    chords: createMemo(),
    rows: new WeakMap(),
    music: { memo: createMemo(), entries: new Map() },
    placer: createPlacer(),
    lastGood: new Map(),
    loose: new Map(),
  };
}

/**
 * The last good drawing of an item, in the place of what is written now. Its places lead to the item as it is now: those of the
 * old text are gone.
 */
function outOfDate(last: Drawn, { broken }: Drawn, item: SheetItem): Drawn {
  const [entry] = item.entries;
  if (entry === undefined || broken === undefined) return last;
  const now: Source = { entry, span: entry.statement.span };
  const drafts = last.drafts.map((draft) =>
    staleDraft({ ...draft, source: now, places: draft.places.map(() => now) }, broken),
  );
  return { ...last, drafts };
}

const NO_ITEM = { entries: [], starts: [] };

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

function choicesOf(lesson: Lesson): readonly EditionChoice[] {
  return lesson.editions.map((edition: Edition) => {
    const keeps = { own: '', shapes: ', same shapes', key: ', same key' }[edition.keeps];
    const named = edition.name === edition.instrument.name ? '' : `${edition.name}: `;
    return { name: edition.name, label: `${named}${edition.instrument.name}${keeps}` };
  });
}
