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
  /** A note that stands further up than on the last page, where it is looked for. */
  noteBeforeEnd: 1.3,
  /** The same on the first page, where the lesson has hardly begun. */
  noteOnFirst: 4,
} as const;

/** A last page that holds less than this share of a page looks like a mistake, the more so the less it holds. */
const NEARLY_EMPTY = 0.35;

/** One page: from which piece to which, and how far its white is drawn out (above 0) or pressed together (below 0). */
export interface PageRange {
  readonly from: number;
  readonly to: number;
  readonly strain: number;
  /** True where the note stands below its pieces. */
  readonly noted?: true;
}

/** A division into pages, and what speaks against it. */
export interface Division {
  readonly ranges: readonly PageRange[];
  readonly cost: number;
}

/** Something that stands at the foot of one page, whichever has room for it. */
export type PageNote = Pick<PageUnit, 'height' | 'above'>;

/** Divides pieces into pages of this height so that all pages together cost least. */
export function paginate(units: readonly PageUnit[], height: number): readonly PageRange[] {
  return divide(units, height).ranges;
}

/**
 * Divides pieces, and a note where there is one, into pages of this height so that all pages together cost least; the first is a
 * right-hand page. Every way to divide is weighed, but from each piece only as many further ones as a page holds. The cost is
 * infinite where no page has room for the note; it is left out then.
 */
export function divide(units: readonly PageUnit[], height: number, note?: PageNote): Division {
  const count = units.length;
  if (count === 0) return { ranges: [], cost: note === undefined ? 0 : Number.POSITIVE_INFINITY };
  /** For each piece and state, the least that pages from it to the end cost, and where the first of them ends. */
  const best: Ways[] = Array.from({ length: count + 1 }, () => ENDED);
  for (let from = count - 1; from >= 0; from--) {
    const way = (side: Side, awaited: PageNote | undefined): Way =>
      bestFrom(units, { height, from, side, note: awaited }, best);
    best[from] = {
      done: { right: way('right', undefined), left: way('left', undefined) },
      waiting: note === undefined ? ENDED.waiting : { right: way('right', note), left: way('left', note) },
    };
  }
  let state: keyof Ways = note === undefined ? 'done' : 'waiting';
  let side: Side = 'right';
  const cost = best[0]?.[state][side].cost ?? 0;
  if (cost === Number.POSITIVE_INFINITY) state = 'done';
  const ranges: PageRange[] = [];
  for (let from = 0; from < count; ) {
    const way: Way | undefined = best[from]?.[state][side];
    const to = Math.max(from + 1, way?.to ?? count);
    const noted = way?.noted === true;
    ranges.push({ from, to, strain: way?.strain ?? 0, ...(noted ? { noted } : {}) });
    if (noted) state = 'done';
    side = otherSide(side);
    from = to;
  }
  return { ranges, cost };
}

type Side = 'left' | 'right';

function otherSide(side: Side): Side {
  return side === 'right' ? 'left' : 'right';
}

/** The best ways on, with the note placed and with it still to come. */
interface Ways {
  readonly done: Readonly<Record<Side, Way>>;
  readonly waiting: Readonly<Record<Side, Way>>;
}

interface Way {
  readonly cost: number;
  readonly to: number;
  readonly strain: number;
  readonly noted?: boolean;
}

const DONE: Way = { cost: 0, to: 0, strain: 0 };
const NEVER: Way = { cost: Number.POSITIVE_INFINITY, to: 0, strain: 0 };
const ENDED: Ways = { done: { right: DONE, left: DONE }, waiting: { right: NEVER, left: NEVER } };

interface PageStart {
  readonly height: number;
  readonly from: number;
  readonly side: Side;
  /** Where it is still to come. */
  readonly note: PageNote | undefined;
}

function bestFrom(units: readonly PageUnit[], { height, from, side, note }: PageStart, best: readonly Ways[]): Way {
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
    const further = COSTS.page + turnCost(unit, next, side);
    const then = best[to] ?? ENDED;
    const plain = weigh(height - filled, { height, stretch, shrink, ends });
    const total = plain.cost + further + then[note === undefined ? 'done' : 'waiting'][otherSide(side)].cost;
    if (total < least.cost) least = { cost: total, to, strain: plain.strain };
    if (note !== undefined) {
      const white = { height, stretch: stretch + note.above.stretch, shrink: shrink + note.above.shrink, ends };
      const left = height - filled - note.height - note.above.natural;
      if (left + white.shrink >= -1e-6) {
        const noted = weigh(left, white);
        const early = next === undefined ? 0 : from === 0 ? COSTS.noteOnFirst : COSTS.noteBeforeEnd;
        const total = noted.cost + further + early + then.done[otherSide(side)].cost;
        if (total < least.cost) least = { cost: total, to, strain: noted.strain, noted: true };
      }
    }
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
function turnCost(last: PageUnit, next: PageUnit | undefined, side: Side): number {
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
