import { readFragment } from '../preview/page/fragment.ts';
import type { ShownBlock } from './read-lesson.ts';

/** Puts these blocks in the place of those that are shown. */
export function showBlocks(sheet: HTMLElement, blocks: readonly ShownBlock[], zoom: number): void {
  sheet.replaceChildren(
    ...blocks.map(({ kind, markup }, number) => {
      const element = document.createElement('div');
      element.className = `block ${kind}`;
      element.dataset.block = String(number);
      const content = readFragment(markup, zoom);
      if (content !== undefined) element.append(content);
      return element;
    }),
  );
  // A title is no control here: the button beside it is.
  for (const title of sheet.querySelectorAll('[data-place]')) title.removeAttribute('tabindex');
  levelHeadings(sheet);
}

/** No level of headings is left out, whatever parts a lesson has, so that who goes from heading to heading finds them all. */
function levelHeadings(sheet: HTMLElement): void {
  let before = 1;
  for (const heading of sheet.querySelectorAll('h2, h3, h4')) {
    const own = Number(heading.localName.slice(1));
    const level = Math.min(own, before + 1);
    if (level !== own) heading.setAttribute('aria-level', String(level));
    before = level;
  }
}

/** Where the reader is: the block at the top of the window among those of its kind, and how far above the window it begins. */
export interface Place {
  readonly kind: string;
  readonly nth: number;
  readonly abovePx: number;
}

/** Headings and paragraphs are on every sheet of the lesson; lines of music are not. */
const STAYS = '.block:not(.system)';

export function placeOf(sheet: HTMLElement): Place | undefined {
  const blocks = [...sheet.querySelectorAll<HTMLElement>(STAYS)];
  const found = blocks.findLast((block) => block.getBoundingClientRect().top <= 1);
  if (found === undefined) return undefined;
  const alike = blocks.filter(({ className }) => className === found.className);
  return { kind: found.className, nth: alike.indexOf(found), abovePx: -found.getBoundingClientRect().top };
}

export function goTo(sheet: HTMLElement, place: Place | undefined): void {
  if (place === undefined) return;
  const blocks = [...sheet.querySelectorAll<HTMLElement>(STAYS)];
  const block = blocks.filter(({ className }) => className === place.kind)[place.nth];
  if (block !== undefined)
    window.scrollBy({ top: block.getBoundingClientRect().top + place.abovePx, behavior: 'instant' });
}
