import { type Drawing, group, type Item, line } from '../drawing.ts';
import type { LegendEntry, SheetContent } from '../sheet-content.ts';
import { type LegendLook, PAGE_GAPS, PAGE_SIZES, type PageLayout, type TypeSize } from './page-sizes.ts';
import { paragraph, rigid, white, whole } from './paragraph.ts';
import type { Piece } from './piece.ts';
import { ITALIC, SOFT } from './type-style.ts';

export type Legend = Extract<SheetContent, { kind: 'legend' }>;

/** What can be read under a rule: one sign and its words. */
interface Entry {
  readonly items: readonly Item[];
  readonly height: number;
  /** White over and under the sample within the entry; undefined where there is none. */
  readonly besideSample: number | undefined;
}

// Contents are values that never change, and a page is the same only where its pieces are.
const kept = new WeakMap<Legend, Map<string, readonly Piece[]>>();

/**
 * The legend, set anew only where it was not set so before. Where it is one piece, its rows are drawn out into the `room` that is
 * left, as far as looks well. Unit: mm.
 */
export function keptLegend(content: Legend, layout: PageLayout, look: LegendLook, room: number): readonly Piece[] {
  const known = kept.get(content) ?? new Map<string, readonly Piece[]>();
  kept.set(content, known);
  const key = `${look} ${room} ${layout.key}`;
  const pieces = known.get(key) ?? legendPieces(content, layout, look, room);
  // Layouts change when somebody turns from one paper to another, not while they write.
  if (known.size > MOST_KEPT) known.clear();
  known.set(key, pieces);
  return pieces;
}

const MOST_KEPT = 12;

/**
 * The legend under a rule. Where two columns have room it is one piece, or as few as pages can hold; in a single column each sign
 * is a piece of its own.
 */
function legendPieces(content: Legend, layout: PageLayout, look: LegendLook, room: number): readonly Piece[] {
  const { width } = layout.text;
  const size = layout.type[TYPES[look]];
  const columns = width / 2 > 22 * size ? 2 : 1;
  const columnWidth = (width - (columns - 1) * PAGE_SIZES.columnGap) / columns;
  const entries = content.signs.map((entry) => legendEntry(entry, columnWidth, look, layout));
  const head = headPiece(content.title, layout);
  if (columns === 1) return [head, ...rowsOf(entries, layout)];
  const gap = signGap(look, layout);
  const blocks: Piece[] = [];
  for (let first = 0; first < entries.length; ) {
    const free = layout.text.height - (first === 0 ? head.height + gap : 0);
    let count = entries.length - first;
    while (count > 1 && twoColumns(entries.slice(first, first + count), gap).height > free) count--;
    const shown = entries.slice(first, first + count);
    const isWhole = count === entries.length;
    blocks.push(columnsPiece(shown, columnWidth, isWhole ? drawnOut(shown, gap, look, room) : gap, layout));
    first += count;
  }
  const [block, ...rest] = blocks;
  if (block === undefined) return [head];
  const headed: Piece = {
    height: head.height + gap + block.height,
    above: head.above,
    items: [...head.items, group(0, head.height + gap, block.items)],
  };
  return [headed, ...rest];
}

/** White between rows that fills the room, up to what still looks like one list. */
function drawnOut(entries: readonly Entry[], gap: number, look: LegendLook, room: number): number {
  const height = twoColumns(entries, gap).height + room;
  let most = gap;
  for (let step = 1; step <= DRAW_OUT_STEPS; step++) {
    const wider = gap * (1 + ((PAGE_SIZES.drawnOutLegend[look] - 1) * step) / DRAW_OUT_STEPS);
    if (twoColumns(entries, wider).height > height) break;
    most = wider;
  }
  return most;
}

const DRAW_OUT_STEPS = 8;

function columnsPiece(entries: readonly Entry[], columnWidth: number, gap: number, layout: PageLayout): Piece {
  const { left, right, height } = twoColumns(entries, gap);
  const items = [...stacked(left, 0, gap), ...stacked(right, columnWidth + PAGE_SIZES.columnGap, gap)];
  return { height, above: white(PAGE_GAPS.legendBlock, layout), items, turn: 'unwanted' };
}

const TYPES = { full: 'facts', beside: 'legend', close: 'running' } as const satisfies Record<LegendLook, TypeSize>;

function headPiece(title: string, layout: PageLayout): Piece {
  const rule = line(0, 0, layout.text.width, 0, PAGE_SIZES.lineThickness, 'soft');
  const lines = paragraph([{ kind: 'text', text: title, style: ITALIC }], 'facts', rigid(0), layout);
  const top = 2.2 * layout.white;
  const named = whole(lines, rigid(0));
  return {
    height: top + named.height,
    above: white(PAGE_GAPS.legend, layout),
    items: [rule, group(0, top, named.items)],
    holdsNext: true,
  };
}

function rowsOf(entries: readonly Entry[], layout: PageLayout): readonly Piece[] {
  const gap = signGap('beside', layout);
  return entries.map((entry, index): Piece => {
    const row: Item = { ...group(0, 0, entry.items), begins: 'list-item' };
    const natural = index === 0 ? gap : gapBetween(entries[index - 1], entry, gap);
    return {
      height: entry.height,
      above: white(natural / layout.white, layout),
      items: [row],
      turn: index === 0 ? 'never' : 'unwanted',
    };
  });
}

/** White between rows grows with their type, or rows of large print would run into one another. Unit: mm. */
function signGap(look: LegendLook, layout: PageLayout): number {
  return (PAGE_GAPS.legendSign[look] * layout.type[TYPES[look]]) / PAGE_SIZES[TYPES[look]];
}

/** White between two rows. Two staffs as close as words may be would look like one of more strings. */
function gapBetween(upper: Entry | undefined, lower: Entry, gap: number): number {
  if (upper?.besideSample === undefined || lower.besideSample === undefined) return gap;
  return Math.max(gap, PAGE_SIZES.betweenSamples * gap - upper.besideSample - lower.besideSample);
}

/** Entries read down the left column and then down the right one, so that the two end as evenly as they can. */
function twoColumns(
  entries: readonly Entry[],
  gap: number,
): { readonly left: readonly Entry[]; readonly right: readonly Entry[]; readonly height: number } {
  const heights = entries.map((_, index) =>
    Math.max(columnHeight(entries.slice(0, index + 1), gap), columnHeight(entries.slice(index + 1), gap)),
  );
  const height = Math.min(...heights);
  const count = heights.indexOf(height) + 1;
  return { left: entries.slice(0, count), right: entries.slice(count), height };
}

function columnHeight(entries: readonly Entry[], gap: number): number {
  return entries.reduce(
    (sum, entry, index) => sum + entry.height + (index === 0 ? 0 : gapBetween(entries[index - 1], entry, gap)),
    0,
  );
}

function stacked(entries: readonly Entry[], x: number, gap: number): readonly Item[] {
  let y = 0;
  return entries.map((entry, index): Item => {
    if (index > 0) y += gapBetween(entries[index - 1], entry, gap);
    const item: Item = { ...group(x, y, entry.items), begins: 'list-item' };
    y += entry.height;
    return item;
  });
}

/** A sample at the left and its words beside it, both in the middle of their line. */
function legendEntry({ sample, text }: LegendEntry, width: number, look: LegendLook, layout: PageLayout): Entry {
  const room = PAGE_SIZES.sample[look].width * layout.music;
  const scale = sample === undefined ? 0 : sampleScale(sample, look, layout);
  const indent = room + PAGE_SIZES.sampleGap;
  const lines = paragraph([{ kind: 'text', text, style: SOFT }], TYPES[look], rigid(0), layout, {
    indent: 0,
    measure: width - indent,
    leading: PAGE_SIZES.tightLeading,
  });
  const words = whole(lines, rigid(0));
  const sampleHeight = sample === undefined ? 0 : sample.height * scale;
  const height = Math.max(words.height, sampleHeight);
  const drawn =
    sample === undefined
      ? []
      : [
          {
            ...group((room - sample.width * scale) / 2, (height - sampleHeight) / 2, sample.items),
            scale,
            decorates: true as const,
          },
        ];
  return {
    height,
    items: [...drawn, group(indent, (height - words.height) / 2, words.items)],
    besideSample: sample === undefined ? undefined : (height - sampleHeight) / 2,
  };
}

/** A sample at its own size, or as small as its room in the legend asks. */
function sampleScale({ width, height, scale }: Drawing, look: LegendLook, layout: PageLayout): number {
  const room = PAGE_SIZES.sample[look];
  return layout.music * Math.min(scale, room.width / width, room.height / height);
}
