import type { PaperName, PrintSize } from '../block.ts';
import { SIZES } from '../sizes.ts';

/** Paper as it is sold. Unit: mm. Source: ISO 216 (A4); ANSI/ASME Y14.1, size A, 8.5 in by 11 in (Letter). */
export const PAPERS: Readonly<Record<PaperName, { readonly width: number; readonly height: number }>> = {
  a4: { width: 210, height: 297 },
  letter: { width: 215.9, height: 279.4 },
};

/** Millimetres in a point. Source: CSS Values and Units, 72 pt = 1 in = 25.4 mm. */
export const MM_PER_POINT = 25.4 / 72;

/**
 * The measures of a printed page at its usual size, all in one table. Unit: mm where nothing else is said. Source: our own, tried
 * on paper; sizes of type as books of this kind have them, common practice, no source.
 */
export const PAGE_SIZES = {
  /** White at the left and right: both alike, since a sheet is printed alone and holed on either side. */
  sideMargin: 18,
  /** The same in large print, where a line of 18 pt needs the width: the caution at the foot fits on one. */
  largeSideMargin: 13,
  /** Where what is printed in the head and the foot of a page begins. Printers reach no nearer to the edge. */
  edge: 10.5,
  /** From the running head to the text, and from the text to the foot. */
  headGap: 4.8,
  footGap: 4.6,
  /** Sizes of type: 11 pt for what is read, 10 pt for what is looked up. */
  body: 3.88,
  facts: 3.4,
  title: 8.1,
  part: 5.7,
  exercise: 4.7,
  smallHeading: 4.1,
  caution: 3.55,
  legend: 3.1,
  plain: 3.1,
  running: 2.95,
  /** From baseline to baseline, in sizes of the type. Unit: em. */
  leading: 1.4,
  tightLeading: 1.22,
  /** The longest line that the eye finds its way back from: about 75 characters. Unit: em. */
  measure: 35,
  factsMeasure: 52,
  /** How far a list or a quotation stands in. Unit: em. */
  indent: 1.35,
  cautionPadding: 2.1,
  lineThickness: 0.2,
  /**
   * The most room for a sample in the legend: in full, beside other things, and where it would not fit there otherwise. A staff of
   * four strings in full is 13.5 high.
   */
  sample: {
    full: { width: 11, height: 13.5 },
    beside: { width: 11, height: 10.5 },
    close: { width: 9, height: 8.4 },
  },
  /** White between two samples of the legend that stand one above the other, against that between its rows. Unit: none. */
  betweenSamples: 1.9,
  /** The most that white between the rows of the legend is drawn out where there is room. Unit: none. */
  drawnOutLegend: { full: 2.4, beside: 1.8, close: 1.5 },
  /** From a sample in the legend to its words, and between its columns. */
  sampleGap: 1.6,
  columnGap: 7,
  /** A diagram within a sentence, against its size beside a sentence on the screen. Unit: none. */
  inlineDiagram: 0.8,
} as const;

/**
 * How closely the legend is set: with its samples in full, smaller as beside other things, or as small and close as it can be
 * read.
 */
export type LegendLook = keyof typeof PAGE_SIZES.sample;

/** White above things, in one place so that they can be weighed against one another. Unit: mm at the usual size. */
export const PAGE_GAPS = {
  subtitle: 1.6,
  facts: 3,
  further: 1.6,
  caution: 3.6,
  afterCaution: 4,
  paragraph: 2.6,
  proseAfterMusic: 3.6,
  listItem: 0.9,
  part: 9.5,
  exercise: 8.6,
  smallHeading: 7,
  headingToText: 2.6,
  headingToMusic: 3,
  diagrams: 4.4,
  nextDiagrams: 3.6,
  system: 5.6,
  pass: 5,
  passToMusic: 2.4,
  plain: 4,
  legend: 9,
  /** Between the rows of the legend, the way it is set, and between its blocks. */
  legendSign: { full: 1.9, beside: 1.5, close: 1.1 },
  legendBlock: 1.9,
} as const;

/**
 * How far the white above a thing may grow or give, against its natural size, and how far it may between lines of music, which an
 * engraver spreads over a page that is not full; things that are no further than `together` apart belong together. Unit: none, of
 * `together` mm. Source: our own, tried on the samples.
 */
export const WHITE = { most: 0.7, mostBetweenSystems: 2, least: 0.42, together: 3.7, leastTogether: 0.28 } as const;

/**
 * Large print: type of 18 pt, the size that associations of blind people ask for, and figures of the tab that are never below
 * 14 pt. Source: our own list of what players ask for; the American Printing House for the Blind gives 18 pt as large print (from
 * memory).
 */
const LARGE_PRINT = { textPt: 18, figurePt: 14, headings: 1.4, white: 1.1 } as const;

/** The smallest that everything may become to fit on one page: type of 9 pt. Unit: pt. */
export const LEAST_ON_ONE_PAGE_PT = 9;

/** All sizes of one way of printing. */
export interface PageLayout {
  readonly paper: PaperName;
  readonly print: PrintSize;
  readonly width: number;
  readonly height: number;
  /** What music and diagrams are multiplied by. */
  readonly music: number;
  /** What white and frames are multiplied by. */
  readonly white: number;
  readonly type: Readonly<Record<TypeSize, number>>;
  /** The area of the text. Unit: mm on the paper. */
  readonly text: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  /** Baselines of the running head and of the first line of the foot. */
  readonly head: number;
  readonly foot: number;
  /** Tells layouts apart. */
  readonly key: string;
}

export type TypeSize =
  | 'body'
  | 'facts'
  | 'title'
  | 'part'
  | 'exercise'
  | 'smallHeading'
  | 'caution'
  | 'legend'
  | 'plain'
  | 'running';

const TYPE_SIZES: readonly TypeSize[] = [
  ...(['body', 'facts', 'title', 'part', 'exercise'] as const),
  ...(['smallHeading', 'caution', 'legend', 'plain', 'running'] as const),
];

/** A size of type in this print. Unit: mm. */
export function typeSize(size: TypeSize, print: PrintSize, scale: number): number {
  if (print !== 'large') return PAGE_SIZES[size] * scale;
  return Math.max(LARGE_PRINT.textPt * MM_PER_POINT, PAGE_SIZES[size] * LARGE_PRINT.headings);
}

/** White at the left and right of a page. Unit: mm. */
export function sideMarginOf(print: PrintSize): number {
  return print === 'large' ? PAGE_SIZES.largeSideMargin : PAGE_SIZES.sideMargin;
}

/** The layout of a paper; `scale` makes all of it smaller where it has to fit on one page. */
export function pageLayout(
  paper: PaperName,
  print: PrintSize,
  { scale, footLines }: { readonly scale: number; readonly footLines: number },
): PageLayout {
  const { width, height } = PAPERS[paper];
  const large = print === 'large';
  const sizes = TYPE_SIZES.map((size) => [size, typeSize(size, print, scale)]);
  const type = Object.fromEntries(sizes) as Record<TypeSize, number>;
  const { edge, headGap, footGap, tightLeading } = PAGE_SIZES;
  const sideMargin = sideMarginOf(print);
  const { running } = type;
  const head = edge + 0.75 * running;
  const first = height - edge - 0.25 * running - (footLines - 1) * tightLeading * running;
  const top = head + headGap;
  const bottom = first - running - footGap;
  return {
    paper,
    print,
    width,
    height,
    music: large ? largeMusic() : scale,
    white: large ? LARGE_PRINT.white : scale,
    type,
    text: { x: sideMargin, y: top, width: width - 2 * sideMargin, height: bottom - top },
    head,
    foot: first,
    key: `${paper} ${print} ${scale} ${footLines}`,
  };
}

/** Syllables are text as well; every figure of the tab is a fret, the small ones of an arrival too, and counts are figures. */
function largeMusic(): number {
  const { textPt, figurePt } = LARGE_PRINT;
  const figure = Math.min(SIZES.fretNumber, SIZES.arrivalNumber, SIZES.count);
  return Math.max((textPt * MM_PER_POINT) / SIZES.word, (figurePt * MM_PER_POINT) / figure);
}
