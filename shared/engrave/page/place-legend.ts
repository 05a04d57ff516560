import type { FlowPiece } from './flow.ts';
import { type PageRange, paginate } from './paginate.ts';

/** A lesson divided into pages, its pieces in the order in which they stand there. */
export interface DividedFlow {
  readonly flow: readonly FlowPiece[];
  readonly ranges: readonly PageRange[];
}

/** The legend in one piece, as it is set where there is more or less room for it. */
export interface PlaceableLegend {
  readonly alone: FlowPiece;
  readonly beside: FlowPiece;
  readonly close: FlowPiece;
}

/**
 * Divides a lesson into pages; `legend` says what its last piece may be instead. A legend that would stand alone on a last page is set
 * closer, or goes to the foot of the last page before that has room for it, as a note does in a book. Where none has, it gets its page
 * and its samples their full size.
 */
export function divideFlow(
  flow: readonly FlowPiece[],
  height: number,
  legend: (() => PlaceableLegend | undefined) | undefined,
): DividedFlow {
  const ranges = paginate(flow, height);
  const first = flow.length - 1;
  if (legend === undefined || first < 1 || ranges.at(-1)?.from !== first) return { flow, ranges };
  const looks = legend();
  if (looks === undefined) return { flow, ranges };
  const others = flow.slice(0, first);
  const around = paginate(others, height);
  for (const piece of [looks.beside, looks.close]) {
    const withPiece = [...others, piece];
    const shared = paginate(withPiece, height);
    if (shared.at(-1)?.from !== first && shared.length <= around.length) return { flow: withPiece, ranges: shared };
    const placed = atFootOfPage(others, around, piece, height);
    if (placed !== undefined) return placed;
  }
  return { flow: [...others, looks.alone], ranges };
}

function atFootOfPage(
  others: readonly FlowPiece[],
  around: readonly PageRange[],
  piece: FlowPiece,
  height: number,
): DividedFlow | undefined {
  for (let index = around.length - 1; index >= 0; index--) {
    const range = around[index];
    const fitted = range === undefined ? undefined : fittedAtFoot(others.slice(range.from, range.to), piece, height);
    if (range === undefined || fitted === undefined) continue;
    const flow = [...others.slice(0, range.to), fitted.piece, ...others.slice(range.to)];
    const ranges = around.map((one, at): PageRange => {
      if (at < index) return one;
      if (at === index) return { ...one, to: one.to + 1, strain: fitted.strain };
      return { ...one, from: one.from + 1, to: one.to + 1 };
    });
    return { flow, ranges };
  }
  return undefined;
}

/** The piece for the foot of a page, the white above it so large that it ends where the page does; nothing where it does not fit. */
function fittedAtFoot(
  shown: readonly FlowPiece[],
  piece: FlowPiece,
  height: number,
): { readonly piece: FlowPiece; readonly strain: number } | undefined {
  let filled = piece.height + piece.above.natural;
  let stretch = piece.above.stretch;
  let shrink = piece.above.shrink;
  shown.forEach((one, index) => {
    filled += one.height;
    if (index === 0) return;
    filled += one.above.natural;
    stretch += one.above.stretch;
    shrink += one.above.shrink;
  });
  const left = height - filled;
  if (left < -shrink) return undefined;
  if (left < 0) return { piece, strain: left / shrink };
  const strain = stretch === 0 ? 0 : Math.min(1, left / stretch);
  const above = { ...piece.above, natural: piece.above.natural + left - strain * stretch };
  return { piece: { ...piece, above }, strain };
}
