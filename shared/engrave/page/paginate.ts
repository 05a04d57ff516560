import type { White } from './piece.ts';

/** A piece as the division into pages sees it. */
export interface PageUnit {
  readonly height: number;
  readonly above: White;
  /** What speaks against a page that begins with it; `FORBIDDEN` where it must stand below the piece before. */
  readonly turnCost: number;
  /** True where it begins a page whatever speaks against it. */
  readonly forced: boolean;
  /** Pieces of one exercise share it: a student who plays it cannot turn the page. */
  readonly exercise?: object;
}

/** More than any layout costs that does not break a rule; several times as much where another rule had better be broken. */
export const FORBIDDEN = 10_000;

/**
 * What speaks against a division into pages. 1 is a page more. Unit: none. Source: our own, tried on the samples; that a page is
 * best turned between two exercises, and better before a left-hand page than not at all, is common practice, no source.
 */
const COSTS = {
  page: 1,
  /** White left at the foot of a page that another follows: as a share of the page, squared. */
  empty: 9,
  /** White drawn out or pressed together as far as it goes. */
  strained: 0.35,
  /** An exercise that goes on over the leaf; beside it where both pages lie open. */
  overLeaf: 2.2,
  overFacing: 0.5,
  /** A last page with hardly anything on it. */
  nearlyEmpty: 1.4,
} as const;

/** A last page that holds less than this share of a page looks like a mistake, the more so the less it holds. */
const NEARLY_EMPTY = 0.35;

/** One page: from which piece to which, and how far its white is drawn out (above 0) or pressed together (below 0). */
export interface PageRange {
  readonly from: number;
  readonly to: number;
  readonly strain: number;
}

/**
 * Divides pieces into pages of this height so that all pages together cost least; the first is a right-hand page. Every way to
 * divide is weighed, but from each piece only as many further ones as a page holds.
 */
export function paginate(units: readonly PageUnit[], height: number): readonly PageRange[] {
  const count = units.length;
  if (count === 0) return [];
  /** For each piece and side, the least that pages from it to the end cost, and where the first of them ends. */
  const best: [Way, Way][] = Array.from({ length: count + 1 }, () => [DONE, DONE]);
  for (let from = count - 1; from >= 0; from--) {
    best[from] = [bestFrom(units, height, from, 'right', best), bestFrom(units, height, from, 'left', best)];
  }
  const pages: PageRange[] = [];
  for (let from = 0, side = 0; from < count; side = 1 - side) {
    const way = best[from]?.[side];
    const to = Math.max(from + 1, way?.to ?? count);
    pages.push({ from, to, strain: way?.strain ?? 0 });
    from = to;
  }
  return pages;
}

interface Way {
  readonly cost: number;
  readonly to: number;
  readonly strain: number;
}

const DONE: Way = { cost: 0, to: 0, strain: 0 };

function bestFrom(
  units: readonly PageUnit[],
  height: number,
  from: number,
  side: 'left' | 'right',
  best: readonly (readonly [Way, Way])[],
): Way {
  let least: Way = { cost: Number.POSITIVE_INFINITY, to: from + 1, strain: 0 };
  let filled = 0;
  let stretch = 0;
  let shrink = 0;
  for (let to = from + 1; to <= units.length; to++) {
    const unit = units[to - 1];
    if (unit === undefined) break;
    filled += unit.height;
    if (to > from + 1) {
      filled += unit.above.natural;
      stretch += unit.above.stretch;
      shrink += unit.above.shrink;
    }
    if (filled - shrink > height + 1e-6 && to > from + 1) break;
    const next = units[to];
    const ends = next === undefined || next.forced;
    const { strain, cost } = weigh(height - filled, { height, stretch, shrink, ends });
    const total = cost + turnCost(unit, next, side) + (best[to]?.[side === 'right' ? 1 : 0]?.cost ?? 0) + COSTS.page;
    if (total < least.cost) least = { cost: total, to, strain };
    if (ends) break;
  }
  return least;
}

interface PageWhite {
  readonly height: number;
  readonly stretch: number;
  readonly shrink: number;
  /** True where nothing has to follow: the page may end where it likes. */
  readonly ends: boolean;
}

/** How far the white of a page is drawn out or pressed together, and what speaks against that. */
function weigh(
  left: number,
  { height, stretch, shrink, ends }: PageWhite,
): { readonly strain: number; readonly cost: number } {
  if (left < 0) {
    const strain = shrink === 0 ? 0 : Math.max(-1, left / shrink);
    return { strain, cost: COSTS.strained * strain ** 2 };
  }
  if (ends) return { strain: 0, cost: COSTS.nearlyEmpty * Math.max(0, 1 - (1 - left / height) / NEARLY_EMPTY) };
  const strain = stretch === 0 ? 0 : Math.min(1, left / stretch);
  const empty = Math.max(0, left - stretch) / height;
  return { strain, cost: COSTS.strained * strain ** 2 + COSTS.empty * empty ** 2 + 2 * empty };
}

/** What speaks against a page's end between two pieces. */
function turnCost(last: PageUnit, next: PageUnit | undefined, side: 'left' | 'right'): number {
  if (next === undefined || next.forced) return 0;
  const within = last.exercise !== undefined && last.exercise === next.exercise;
  // Who looks at a right-hand page has to turn the leaf to see the next one.
  const spread = within ? (side === 'right' ? COSTS.overLeaf : COSTS.overFacing) : 0;
  return next.turnCost + spread;
}

/** Where each piece of a page stands below its top. */
export function placedOnPage(units: readonly PageUnit[], { from, to, strain }: PageRange): readonly number[] {
  const tops: number[] = [];
  let y = 0;
  for (let index = from; index < to; index++) {
    const unit = units[index];
    if (unit === undefined) break;
    if (index > from)
      y += unit.above.natural + (strain >= 0 ? unit.above.stretch * strain : unit.above.shrink * strain);
    tops.push(y);
    y += unit.height;
  }
  return tops;
}
