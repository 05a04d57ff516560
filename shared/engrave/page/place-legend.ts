import type { FlowPiece } from './flow.ts';
import type { LegendLook } from './page-sizes.ts';
import { divide, type PageRange, paginate } from './paginate.ts';

/** A lesson divided into pages, its pieces in the order in which they stand there. */
export interface DividedFlow {
  readonly flow: readonly FlowPiece[];
  readonly ranges: readonly PageRange[];
}

/**
 * The legend in one piece, its rows drawn out into the room that is left, as far as looks well; undefined where this look of it
 * is more than a page can hold. Unit: mm.
 */
export type PlaceableLegend = (look: LegendLook, room: number) => FlowPiece | undefined;

/** What speaks against a closer look, as the costs of `paginate`: a page more speaks more against the full one. */
const LOOKS: readonly (readonly [LegendLook, number])[] = [
  ['full', 0],
  ['beside', 0.1],
  ['close', 0.3],
];

/** What speaks against a page that shows nothing but the legend, beside the page that it takes. */
const ON_OWN_PAGE = 0.5;

interface Candidate {
  readonly look: LegendLook;
  readonly legend: FlowPiece;
  readonly ranges: readonly PageRange[];
  readonly cost: number;
}

/**
 * Divides a lesson into pages; `set` says how its last piece, the legend, may be set instead, and where nothing is said it is a
 * piece like any other. The legend stands behind the last line, or at the foot of a page before, as a note does in a book, or on a
 * page of its own: whatever costs least with all pages weighed together.
 */
export function divideFlow(flow: readonly FlowPiece[], height: number, set: PlaceableLegend | undefined): DividedFlow {
  const others = flow.slice(0, -1);
  let best: Candidate | undefined;
  const weigh = (candidate: Candidate): void => {
    if (candidate.cost < (best?.cost ?? Number.POSITIVE_INFINITY)) best = candidate;
  };
  for (const [look, own] of set === undefined || others.length === 0 ? [] : LOOKS) {
    const legend = set?.(look, 0);
    if (legend === undefined) continue;
    const beside = divide(others, height, legend);
    weigh({ look, legend, ranges: beside.ranges, cost: beside.cost + own });
    const alone = divide([...others, { ...legend, forced: true }], height);
    weigh({ look, legend, ranges: alone.ranges, cost: alone.cost + own + ON_OWN_PAGE });
  }
  if (set === undefined || best === undefined) return { flow, ranges: paginate(flow, height) };
  return placed(others, best, set, height);
}

/** The pieces with the legend where the candidate has it. At the foot of a page it ends where the page does. */
function placed(
  others: readonly FlowPiece[],
  { look, legend, ranges }: Candidate,
  set: PlaceableLegend,
  height: number,
): DividedFlow {
  const at = ranges.findIndex(({ noted }) => noted === true);
  const range = ranges[at];
  if (range === undefined) return { flow: [...others, set(look, height - legend.height) ?? legend], ranges };
  const shown = others.slice(range.from, range.to);
  const drawnOut = set(look, Math.max(0, roomBelow(shown, legend, height))) ?? legend;
  const fitted =
    range.strain < 0
      ? { piece: legend, strain: range.strain }
      : fittedAtFoot(shown, drawnOut, height, range.to === others.length);
  return {
    flow: [...others.slice(0, range.to), fitted.piece, ...others.slice(range.to)],
    ranges: ranges.map((one, index): PageRange => {
      if (index < at) return one;
      if (index === at) return { ...one, to: one.to + 1, strain: fitted.strain };
      return { ...one, from: one.from + 1, to: one.to + 1 };
    }),
  };
}

/** What is left of a page under these pieces and the legend, all white at its natural size. Unit: mm. */
function roomBelow(shown: readonly FlowPiece[], legend: FlowPiece, height: number): number {
  const whites = [...shown.slice(1), legend].reduce((sum, { above }) => sum + above.natural, 0);
  return height - whites - [...shown, legend].reduce((sum, piece) => sum + piece.height, 0);
}

function fittedAtFoot(
  shown: readonly FlowPiece[],
  piece: FlowPiece,
  height: number,
  isLast: boolean,
): { readonly piece: FlowPiece; readonly strain: number } {
  if (isLast) return { piece, strain: 0 };
  const left = Math.max(0, roomBelow(shown, piece, height));
  const stretch = [...shown.slice(1), piece].reduce((sum, { above }) => sum + above.stretch, 0);
  const strain = stretch === 0 ? 0 : Math.min(1, left / stretch);
  const above = { ...piece.above, natural: piece.above.natural + left - strain * stretch };
  return { piece: { ...piece, above }, strain };
}
