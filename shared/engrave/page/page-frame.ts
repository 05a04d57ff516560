import type { PaperName, PrintSize } from '../block.ts';
import type { Item } from '../drawing.ts';
import { PAGE_SIZES, PAPERS, type PageLayout, pageLayout, sideMarginOf, typeSize } from './page-sizes.ts';
import { setLines } from './set-lines.ts';
import { fitted, ITALIC, SOFT, SOFT_ITALIC, styledText, styledWidth } from './type-style.ts';

/** What the head and the foot of every page say. */
export interface PageFrame {
  readonly title?: string;
  /** Edition and tuning. */
  readonly edition: string;
  /** Date or number of the sheet, and what was mended in it. */
  readonly version?: string;
  /** What must stand wherever a stretch or a practice load is shown. */
  readonly caution?: string;
}

/** The lines of the foot under the first one, which has the edition and the number of the page. */
export interface Foot {
  /** Version at the left, caution at the right, where both fit in one line. */
  readonly lines: readonly FootLine[];
}

interface FootLine {
  readonly left?: string;
  readonly right?: string;
  readonly isCaution: boolean;
}

/** The most lines that the notes on what was mended get in a foot; the head of the lesson has them in full. */
const MOST_VERSION_LINES = 2;

/** The foot of a lesson's pages, and the layout that leaves room for it. */
export function footedLayout(
  frame: PageFrame,
  { paper, print, scale }: { readonly paper: PaperName; readonly print: PrintSize; readonly scale: number },
): { readonly layout: PageLayout; readonly foot: Foot } {
  const size = typeSize('running', print, scale);
  const width = PAPERS[paper].width - 2 * sideMarginOf(print);
  const foot = footOf(frame, size, width);
  return { foot, layout: pageLayout(paper, print, { scale, footLines: 1 + foot.lines.length }) };
}

function footOf({ version, caution }: PageFrame, size: number, width: number): Foot {
  const widthOf = (text: string): number => styledWidth(text, SOFT, size);
  if (version !== undefined && caution !== undefined && widthOf(version) + widthOf(caution) + 2 * size <= width) {
    return { lines: [{ left: version, right: caution, isCaution: false }] };
  }
  const told = version === undefined ? [] : parted(version, size, width).slice(0, MOST_VERSION_LINES);
  const warned = caution === undefined ? [] : parted(caution, size, width);
  return {
    lines: [...told.map((left) => ({ left, isCaution: false })), ...warned.map((left) => ({ left, isCaution: true }))],
  };
}

/** The text in lines that fit. */
function parted(text: string, size: number, width: number): readonly string[] {
  const lines = setLines([{ kind: 'text', text, style: SOFT }], { measure: width, size, leading: size });
  return lines.flatMap(({ items }) => items.flatMap((item) => (item.kind === 'text' ? [item.text] : [])));
}

/** One page's own words in head and foot. */
export interface FrameWords {
  readonly frame: PageFrame;
  readonly foot: Foot;
  /** The part of the lesson at the top of the page. */
  readonly part?: string;
  readonly number: number;
  readonly count: number;
  /** True where the page has the caution in full. */
  readonly cautioned: boolean;
  /** The page with the legend, where that is another one and not the last, on which it is looked for. */
  readonly signsOn?: number;
}

/** The running head, from the second page on. */
export function headItems({ frame, part, number }: FrameWords, layout: PageLayout): readonly Item[] {
  if (number === 1) return [];
  const { x, width } = layout.text;
  const size = layout.type.running;
  const right = part === undefined ? '' : fitted(part, SOFT_ITALIC, size, width * 0.48);
  const left = fitted(frame.title ?? '', SOFT_ITALIC, size, width - styledWidth(right, SOFT_ITALIC, size) - 2 * size);
  const y = layout.head;
  return [
    ...(left === '' ? [] : [styledText(left, SOFT_ITALIC, { x, y, size })]),
    ...(right === '' ? [] : [styledText(right, SOFT_ITALIC, { x: x + width, y, size, anchor: 'end' })]),
  ];
}

export function footItems(
  { frame, foot, number, count, cautioned, signsOn }: FrameWords,
  layout: PageLayout,
): readonly Item[] {
  const { x, width } = layout.text;
  const size = layout.type.running;
  const leading = PAGE_SIZES.tightLeading * size;
  const page = `page ${number} of ${count}`;
  const edition = fitted(frame.edition, SOFT, size, width - styledWidth(page, ITALIC, size) - 2 * size);
  const y = layout.foot;
  const items: Item[] = [
    styledText(edition, SOFT, { x, y, size }),
    styledText(page, ITALIC, { x: x + width, y, size, anchor: 'end' }),
  ];
  if (signsOn !== undefined) {
    const signs = `signs on page ${signsOn} ·`;
    const right = width - styledWidth(`\u00a0${page}`, ITALIC, size);
    const free = right - styledWidth(edition, SOFT, size) - 2 * size;
    if (styledWidth(signs, ITALIC, size) <= free)
      items.push(styledText(signs, ITALIC, { x: x + right, y, size, anchor: 'end' }));
  }
  foot.lines.forEach(({ left, right, isCaution }, index) => {
    const at = y + (index + 1) * leading;
    const shown = left !== undefined && !(isCaution && cautioned);
    if (shown) items.push(styledText(fitted(left, SOFT, size, width), SOFT, { x, y: at, size }));
    if (right !== undefined && !cautioned) {
      items.push(styledText(right, SOFT, { x: x + width, y: at, size, anchor: 'end' }));
    }
  });
  return items;
}
