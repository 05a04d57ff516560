import type { Page } from '../../engrave/page/lesson-pages.ts';
import type { Bookmark } from './printed-document.ts';

/** Parts, and under each its exercises; exercises before the first part stand beside the parts. */
export function bookmarksOf(pages: readonly Page[]): readonly Bookmark[] {
  const bookmarks: (Bookmark & { readonly inner: Bookmark[] })[] = [];
  let part: { readonly inner: Bookmark[] } | undefined;
  pages.forEach(({ headings }, page) => {
    for (const { level, text, y } of headings) {
      const bookmark = { title: text, page, y, inner: [] };
      if (level === 2) {
        bookmarks.push(bookmark);
        part = bookmark;
      } else if (level === 3) {
        (part?.inner ?? bookmarks).push(bookmark);
      }
    }
  });
  return bookmarks;
}
