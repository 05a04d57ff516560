import type { PaperName } from '../../engrave/block.ts';
import { PAPERS } from '../../engrave/page/page-sizes.ts';
import type { LessonPages } from '../../engrave/sheet-pages.ts';
import { bookmarksOf } from './bookmarks.ts';
import type { PrintedDocument } from './printed-document.ts';
import { createRunReader } from './tagged-runs.ts';

/** The language that the sheet's own words are in. Source: BCP 47. */
const LANGUAGE = 'en';

/**
 * The pages of a lesson as a tagged document; a lesson without a title is called by what is told instead. One that says nothing is an
 * empty page: a file without any cannot be opened.
 */
export function printDocument(
  { title, pages }: LessonPages,
  { author, untitled, paper }: { readonly author?: string; readonly untitled: string; readonly paper: PaperName },
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
    pages: printed.length > 0 ? printed : [{ ...PAPERS[paper], runs: [] }],
    elements: reader.elements,
    bookmarks: bookmarksOf(pages),
  };
}
