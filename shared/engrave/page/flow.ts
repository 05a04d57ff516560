import type { PrintSize } from '../block.ts';
import type { SheetContent } from '../sheet-content.ts';
import type { Draft } from '../sheet-draft.ts';
import { PAGE_GAPS, type PageLayout } from './page-sizes.ts';
import { FORBIDDEN, type PageUnit } from './paginate.ts';
import { white } from './paragraph.ts';
import type { Piece, White } from './piece.ts';
import { piecesOf } from './pieces.ts';

/** A draft of the sheet in its order, and the exercise that it belongs to. */
export interface FlowDraft {
  readonly draft: Draft;
  /** Shared by all drafts of one exercise. */
  readonly exercise?: object;
}

/** A piece of the lesson and all that its division into pages asks. */
export interface FlowPiece extends PageUnit {
  readonly piece: Piece;
  /** The draft it is from, by its number. */
  readonly draft: number;
}

/** All pieces of a lesson in their order. */
export function flowOf(drafts: readonly FlowDraft[], layout: PageLayout): readonly FlowPiece[] {
  const flow: FlowPiece[] = [];
  let before: SheetContent | undefined;
  let forced = false;
  drafts.forEach(({ draft, exercise }, number) => {
    const { content } = draft;
    // A heading that the page would end with goes over to the next one with what follows it.
    if (content.kind === 'turn') forced = !turnBeforeHeadings(flow);
    const pieces = piecesOf(content, layout);
    pieces.forEach((piece, index) => {
      const first = index === 0;
      const held = flow.at(-1)?.piece.holdsNext === true;
      flow.push({
        piece,
        draft: number,
        height: piece.height,
        above: first ? whiteBetween(before, content, piece.above, layout) : piece.above,
        turnCost: held
          ? 4 * FORBIDDEN
          : piece.turn === 'never'
            ? 2 * FORBIDDEN
            : first
              ? turnCostBefore(before, content, layout)
              : UNWANTED_TURN,
        forced,
        ...(exercise === undefined ? {} : { exercise }),
      });
      forced = false;
    });
    if (pieces.length > 0) before = content;
  });
  return flow;
}

/** Lets the headings at the end of what is there so far begin a page; false where it ends with none. */
function turnBeforeHeadings(flow: FlowPiece[]): boolean {
  let first = flow.length;
  while (first > 0 && flow[first - 1]?.piece.holdsNext === true) first--;
  const heading = flow[first];
  if (heading === undefined) return false;
  flow[first] = { ...heading, forced: true };
  return true;
}

/** A row of diagrams stands on the page of the music that it is for, unless both together are higher than a page. */
function isHeld(before: SheetContent | undefined, next: SheetContent): boolean {
  if (before?.kind !== 'diagrams') return false;
  return next.kind === 'system' || next.kind === 'exercise' || next.kind === 'pass' || isSmallHeading(next);
}

function isSmallHeading(content: SheetContent): boolean {
  return content.kind === 'heading' && content.level === 4;
}

/** Within a paragraph, the legend or a text as it was typed. Unit: as the costs of `paginate`. */
const UNWANTED_TURN = 0.7;

/**
 * Between a row of diagrams and its music. In large print a heading, a row and one line of bars nearly fill a page: held together
 * at any cost they would leave every other page half empty. Unit: as the costs of `paginate`.
 */
const AFTER_DIAGRAMS: Readonly<Record<PrintSize, number>> = {
  normal: FORBIDDEN,
  'one-page': FORBIDDEN,
  large: 0.9,
};

/** What speaks against a page that begins with this. Unit: as the costs of `paginate`. Source: our own, tried on the samples. */
function turnCostBefore(before: SheetContent | undefined, next: SheetContent, layout: PageLayout): number {
  if (isHeld(before, next)) return AFTER_DIAGRAMS[layout.print];
  switch (next.kind) {
    case 'heading':
      return next.level === 2 ? 0 : 0.25;
    case 'exercise':
      return 0.12;
    case 'pass':
    case 'legend':
      return 0.2;
    case 'system':
      return 0.3;
    case 'diagrams':
      return before?.kind === 'diagrams' ? 1.2 : 0.25;
    case 'prose':
      return 0.5;
    default:
      return 0.4;
  }
}

/** White above a thing depends on what stands there; where nothing special does, it is the thing's own. */
function whiteBetween(before: SheetContent | undefined, next: SheetContent, own: White, layout: PageLayout): White {
  const gap = gapBetween(before, next);
  return gap === undefined ? own : white(gap, layout);
}

function gapBetween(before: SheetContent | undefined, next: SheetContent): number | undefined {
  const drawn = next.kind === 'system' || next.kind === 'diagrams';
  if (before?.kind === 'heading' || before?.kind === 'exercise') {
    if (next.kind === 'pass' || next.kind === 'prose') return PAGE_GAPS.headingToText;
    if (next.kind === 'exercise') return PAGE_GAPS.headingToText * 1.4;
    return drawn ? PAGE_GAPS.headingToMusic : undefined;
  }
  if (before?.kind === 'caution' && next.kind === 'prose') return PAGE_GAPS.afterCaution;
  if (before?.kind === 'pass' && next.kind === 'system') return PAGE_GAPS.passToMusic;
  if (before?.kind === 'diagrams' && next.kind === 'diagrams') return PAGE_GAPS.nextDiagrams;
  if (before?.kind === 'system' && next.kind === 'prose') return PAGE_GAPS.proseAfterMusic;
  return undefined;
}
