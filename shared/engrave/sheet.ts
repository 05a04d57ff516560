import { type Answers, NO_ANSWERS } from '../lesson/asked/answer.ts';
import type { LessonDocument } from '../lesson/document.ts';
import { type Edition, type Lesson, lessonOf } from '../lesson/model/lesson.ts';
import type { Block, SheetView } from './block.ts';
import { createPlacer, type Placer } from './sheet-draft.ts';
import { type DrawingMemory, drawLesson, emptyDrawingMemory } from './sheet-lesson.ts';
import { drawPages, type PagesMemory } from './sheet-pages.ts';

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
  readonly drawing: DrawingMemory;
  readonly placer: Placer;
  readonly pages?: PagesMemory;
}

/**
 * The sheet of a lesson: its head, then the items in the order of the file, then what the signs mean. With the sheet before, only
 * what has changed is drawn, and the blocks equal those of a sheet drawn afresh; an item whose text is broken now keeps its last
 * good blocks, marked as out of date, where there are any. What the lesson asks to be found is drawn once its answer is known.
 */
export function sheetOf(
  document: LessonDocument,
  view: SheetView,
  previous?: Sheet,
  answers: Answers = NO_ANSWERS,
): Sheet {
  const lesson = lessonOf(document);
  const edition = lesson.editions.find((candidate) => candidate.name === view.edition) ?? lesson.editions[0];
  const { drawing, placer, pages } = previous?.memory ?? { drawing: emptyDrawingMemory(), placer: createPlacer() };
  const editions = choicesOf(lesson);
  if (view.page !== undefined) {
    const paged = drawPages(document, { lesson, edition }, { ...view, page: view.page }, { drawing, placer, pages });
    return { blocks: paged.blocks, editions, memory: { drawing: paged.drawing, placer, pages: paged.memory } };
  }
  const drawn = drawLesson(document, { lesson, edition }, view, drawing, answers);
  const blocks = drawn.drafts.map(({ draft, item }) => placer.place(document, draft, item));
  return { blocks, editions, memory: { drawing: drawn.memory, placer } };
}

function choicesOf(lesson: Lesson): readonly EditionChoice[] {
  return lesson.editions.map((edition: Edition) => {
    const keeps = { own: '', shapes: ', same shapes', key: ', same key' }[edition.keeps];
    const named = edition.name === edition.instrument.name ? '' : `${edition.name}: `;
    return { name: edition.name, label: `${named}${edition.instrument.name}${keeps}` };
  });
}
