// placeholder: replaced by the core
import type { LessonDocument } from '../lesson/document.ts';
import type { Block, SheetView } from './block.ts';

export interface Sheet {
  readonly blocks: readonly Block[];
}

/** Every run of lines without a blank line between them, as plain text. */
export function sheetOf(document: LessonDocument, _view: SheetView, _previous?: Sheet): Sheet {
  const blocks: Block[] = [];
  for (const found of document.text.matchAll(/[^\n]+(?:\n[^\n]+)*/g)) {
    const span = { start: found.index, end: found.index + found[0].length };
    const escaped = found[0].replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
    const markup = `<pre class="sheet-plain" data-place="0" tabindex="0">${escaped}</pre>`;
    blocks.push({ id: markup, kind: 'plain-text', markup, source: span, places: [span] });
  }
  return { blocks };
}
