import type { PaperChoice } from '../block.ts';
import { type Drawing, group, type Item } from '../drawing.ts';
import { type FlowDraft, type FlowPiece, flowOf } from './flow.ts';
import { keptLegend } from './legend-pieces.ts';
import { type FrameWords, footedLayout, footItems, headItems, type PageFrame } from './page-frame.ts';
import type { PageLayout } from './page-sizes.ts';
import { type PageRange, placedOnPage } from './paginate.ts';
import { countedFrom, type Heading, markFrom, type Piece } from './piece.ts';
import { divideFlow, type PlaceableLegend } from './place-legend.ts';

/** A page of a lesson. */
export interface Page {
  /** Its size is that of the paper. What is read first is drawn first. */
  readonly drawing: Drawing;
  /** In their order, with the distance of their tops from that of the paper. Unit: mm. */
  readonly headings: readonly (Heading & { readonly y: number })[];
  /**
   * Drafts that it shows something of, by their numbers, in the order in which they begin. The drawing's places are those of these
   * drafts, one list behind the other.
   */
  readonly drafts: readonly number[];
}

/** What pages are made of, kept so that a page on which nothing has changed is the same page. */
export interface PageMemory {
  readonly made: ReadonlyMap<Piece, MadePage>;
}

interface MadePage {
  readonly key: string;
  readonly pieces: readonly Piece[];
  readonly page: Page;
}

export const NO_PAGES: PageMemory = { made: new Map() };

/** Width that music is laid out for on these pages. Unit: mm, before the music is made larger or smaller. */
export function musicWidth(choice: PaperChoice, frame: PageFrame, scale: number): number {
  const { layout } = footedLayout(frame, { ...choice, scale });
  return layout.text.width / layout.music;
}

/** A lesson set as pages. `scale` makes all of it smaller where it has to fit on one page. */
export function pagesOf(
  drafts: readonly FlowDraft[],
  { choice, frame, scale }: { readonly choice: PaperChoice; readonly frame: PageFrame; readonly scale: number },
  before: PageMemory,
): { readonly pages: readonly Page[]; readonly memory: PageMemory } {
  const { layout, foot } = footedLayout(frame, { ...choice, scale });
  const inOrder = flowOf(drafts, layout);
  const { flow, ranges } = divideFlow(inOrder, layout.text.height, legendOf(drafts, inOrder, layout));
  const parts = partsOf(flow);
  const legend = flow.findIndex(({ draft }) => drafts[draft]?.draft.content.kind === 'legend');
  const signsOn = ranges.findIndex(({ from, to }) => from <= legend && legend < to);
  const isTold = signsOn >= 0 && signsOn < ranges.length - 1;
  const made = new Map<Piece, MadePage>();
  const pages = ranges.map((range, index): Page => {
    const shown = flow.slice(range.from, range.to);
    const part = parts[range.from];
    const words: FrameWords = {
      frame,
      foot,
      ...(part === undefined ? {} : { part }),
      number: index + 1,
      count: ranges.length,
      cautioned: shown.some(({ draft }) => drafts[draft]?.draft.content.kind === 'caution'),
      ...(isTold && signsOn !== index ? { signsOn: signsOn + 1 } : {}),
    };
    return keptOrMade({ flow, shown, range, layout, words, drafts }, before, made);
  });
  return { pages, memory: { made } };
}

/** The legend at the end of the lesson, where there is one. */
function legendOf(
  drafts: readonly FlowDraft[],
  flow: readonly FlowPiece[],
  layout: PageLayout,
): PlaceableLegend | undefined {
  const content = drafts.at(-1)?.draft.content;
  const last = flow.at(-1);
  if (content?.kind !== 'legend' || last?.draft !== drafts.length - 1) return undefined;
  return (look, room) => {
    const [piece, ...more] = keptLegend(content, layout, look, room);
    const isWhole = piece !== undefined && more.length === 0 && piece.height <= layout.text.height;
    return isWhole ? { ...last, piece, height: piece.height } : undefined;
  };
}

/** For each piece, the part of the lesson that a page beginning with it goes on with. */
function partsOf(flow: readonly FlowPiece[]): readonly (string | undefined)[] {
  let part: string | undefined;
  return flow.map(({ piece }) => {
    if (piece.heading?.level === 2) part = piece.heading.text;
    return part;
  });
}

interface PageRequest {
  readonly flow: readonly FlowPiece[];
  readonly shown: readonly FlowPiece[];
  readonly range: PageRange;
  readonly layout: PageLayout;
  readonly words: FrameWords;
  readonly drafts: readonly FlowDraft[];
}

function keptOrMade(request: PageRequest, before: PageMemory, made: Map<Piece, MadePage>): Page {
  const { flow, shown, range, layout, words, drafts } = request;
  const pieces = shown.map(({ piece }) => piece);
  const tops = placedOnPage(flow, range);
  const numbers = [...new Set(shown.map(({ draft }) => draft))];
  const counts = numbers.map((number) => drafts[number]?.draft.places.length ?? 0);
  const owners = shown.map(({ draft }) => numbers.indexOf(draft));
  const key = JSON.stringify([layout.key, words, tops, owners, counts]);
  const [first] = pieces;
  const known = first === undefined ? undefined : before.made.get(first);
  const same =
    known?.key === key &&
    known.pieces.length === pieces.length &&
    known.pieces.every((piece, index) => piece === pieces[index]);
  // Numbers of drafts move when something is added above; what is drawn does not.
  const page = known !== undefined && same ? withDrafts(known.page, numbers) : drawPage(request, tops, numbers);
  if (first !== undefined) made.set(first, { key, pieces, page });
  return page;
}

function withDrafts(page: Page, drafts: readonly number[]): Page {
  return page.drafts.every((number, index) => number === drafts[index]) ? page : { ...page, drafts };
}

function drawPage(
  { shown, layout, words, drafts }: PageRequest,
  tops: readonly number[],
  numbers: readonly number[],
): Page {
  const { x, y, width } = layout.text;
  const starts = new Map<number, number>();
  let places = 0;
  for (const number of numbers) {
    starts.set(number, places);
    places += drafts[number]?.draft.places.length ?? 0;
  }
  const items: Item[] = [];
  const headings: Page['headings'][number][] = [];
  for (let index = 0; index < shown.length; ) {
    const top = tops[index] ?? 0;
    const from = shown[index];
    if (from === undefined) break;
    const { mark } = from.piece;
    const start = starts.get(from.draft) ?? 0;
    let end = index + 1;
    while (mark !== undefined && shown[end]?.piece.mark === mark && shown[end]?.draft === from.draft) end++;
    const inner = shown.slice(index, end).flatMap(({ piece }, at): readonly Item[] => {
      if (piece.heading !== undefined) headings.push({ ...piece.heading, y: y + (tops[index + at] ?? 0) });
      const content = countedFrom(piece.items, start);
      const below = (tops[index + at] ?? 0) - top;
      return below === 0 ? content : [group(0, below, content)];
    });
    const bottom = (tops[end - 1] ?? 0) + (shown[end - 1]?.piece.height ?? 0);
    const area = { x: 0, y: 0, width, height: bottom - top };
    items.push(
      mark === undefined
        ? group(x, y + top, inner)
        : group(x, y + top, inner, { ...markFrom(mark, start), ...(mark.place === undefined ? {} : { area }) }),
    );
    index = end;
  }
  const drawing: Drawing = {
    width: layout.width,
    height: layout.height,
    items: [...headItems(words, layout), ...items, ...footItems(words, layout)],
    alternative: `Page ${words.number} of ${words.count}`,
    scale: 1,
  };
  return { drawing, headings, drafts: numbers };
}
