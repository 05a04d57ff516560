import type { LessonPages } from '../../engrave/sheet-pages.ts';
import { bookmarksOf } from './bookmarks.ts';
import type { PrintedDocument } from './printed-document.ts';
import { createRunReader } from './tagged-runs.ts';

/** The language that the sheet's own words are in. Source: BCP 47. */
const LANGUAGE = 'en';

/** The pages of a lesson as a tagged document; a lesson without a title is called by what is told instead. */
export function printDocument(
  { title, pages }: LessonPages,
  { author, untitled }: { readonly author?: string; readonly untitled: string },
): PrintedDocument {
  const reader = createRunReader();
  const printed = pages.map(({ drawing }) => {
    const { width, height, items } = drawing;
    return { width, height, runs: reader.readPage(items) };
  });
  return {
    title: title ?? untitled,
    ...(author === undefined ? {} : { author }),
    language: LANGUAGE,
    pages: printed,
    elements: reader.elements,
    bookmarks: bookmarksOf(pages),
  };
}
