import type { ScoreBar } from '../score/timeline.ts';
import { SIZES } from './sizes.ts';
import type { ReadyBar } from './tab-bar.ts';
import { barLinePiece } from './tab-bar-line.ts';
import type { Piece, Staff } from './tab-piece.ts';
import type { Slot } from './tab-spacing.ts';
import { textWidth } from './text-width.ts';

/** What decides where lines end. */
export interface LinesRequest {
  readonly widthMm: number;
  /** Names of the open strings in chart order, printed before the first line. */
  readonly stringNames?: readonly string[];
  /** Most bars in one line. */
  readonly mostBars?: number;
}

/** A line of bars as one row of slots, with the indexes of the slots where each bar begins and ends. */
export interface Line {
  readonly slots: readonly Slot[];
  readonly bars: readonly {
    readonly ready: ReadyBar;
    readonly start: number;
    readonly end: number;
    readonly firstColumn: number;
  }[];
}

export function lineOf(ready: readonly ReadyBar[], first: number, count: number, staff: Staff): Line {
  const start = lineStart(ready, first, staff);
  const slots: Slot[] = [...start.slots];
  const bars: { ready: ReadyBar; start: number; end: number; firstColumn: number }[] = [];
  for (let index = first; index < first + count; index++) {
    const bar = ready[index];
    if (bar === undefined) continue;
    const begin = slots.length - 1;
    const taken = index === first ? start.taken : 0;
    slots.push(...bar.slots.slice(taken), closingSlot(ready, index, index + 1 === first + count, staff));
    bars.push({ ready: bar, start: begin, end: slots.length - 1, firstColumn: begin + 1 - taken });
  }
  return { slots, bars };
}

/**
 * What a line has before its first bar, and how many of the bar's slots are among it. A line begins with a plain stroke, or with
 * the repeat that begins there. The meter comes before a repeat, or its dots would be read into the figures. Common practice, no
 * source. Where a bar goes on from the line before there is no stroke.
 */
export function lineStart(
  ready: readonly ReadyBar[],
  first: number,
  staff: Staff,
): { readonly slots: readonly Slot[]; readonly taken: number } {
  const opening = ready[first];
  if (opening === undefined) return { slots: [], taken: 0 };
  if (opening.cut?.before === true) return { slots: [{ rigid: 0, spring: 0, pieces: [OPEN_START] }], taken: 0 };
  const number = numberPiece(opening.bar);
  const plain = barLinePiece(staff, { last: false });
  if (signAtLineStart(opening.bar, ready[first - 1]?.bar) !== '|:')
    return { slots: [{ rigid: 0, spring: 0, pieces: [plain, ...number] }], taken: 0 };
  const begun = barLinePiece(staff, { last: false, opens: '|:' });
  if (!opening.bar.showsMeter) return { slots: [{ rigid: 0, spring: 0, pieces: [begun, ...number] }], taken: 0 };
  const slots: readonly Slot[] = [
    { rigid: 0, spring: 0, pieces: [plain, ...number] },
    ...opening.slots.slice(0, 1),
    { rigid: 1, spring: 0, pieces: [begun] },
  ];
  return { slots, taken: 1 };
}

/** A little of the strings before the first figure, to show that the music comes from the line before. */
const OPEN_START: Piece = { row: 'staff', left: 0, right: 0.6, items: [] };

/** The bar line behind a bar. Where the line of music ends with it, a repeat that begins there is left to the next line. */
export function closingSlot(ready: readonly ReadyBar[], index: number, endsLine: boolean, staff: Staff): Slot {
  const bar = ready[index];
  const spring = bar?.closingSpring ?? 0;
  if (bar === undefined || bar.cut?.after === true) return { rigid: 0, spring, pieces: [] };
  const next = endsLine ? undefined : ready[index + 1];
  const written = bar.bar.closes;
  const closes = endsLine && written === ':|:' ? ':|' : endsLine && written === '|:' ? '|' : written;
  const opens = next?.bar.opens;
  const boundary = { closes, last: index === ready.length - 1, ...(opens === undefined ? {} : { opens }) };
  return { rigid: 0, spring, pieces: [barLinePiece(staff, boundary), ...timesPiece(bar.bar)] };
}

function signAtLineStart(bar: ScoreBar, before: ScoreBar | undefined): '|:' | undefined {
  return [before?.closes, bar.opens].some((sign) => sign === '|:' || sign === ':|:') ? '|:' : undefined;
}

function numberPiece(bar: ScoreBar): readonly Piece[] {
  if (bar.number === undefined || bar.number === 1) return [];
  const text = String(bar.number);
  const size = SIZES.small;
  return [
    {
      row: 'name',
      left: 0,
      right: Math.max(0, textWidth(text, 'number', size) - SIZES.clearance.name / 2),
      items: [{ kind: 'text', x: 0, y: 0, text, size, anchor: 'start', role: 'number', ink: 'soft' }],
    },
  ];
}

/** How often in all, over the repeat sign. */
function timesPiece(bar: ScoreBar): readonly Piece[] {
  if (bar.times === undefined) return [];
  const text = `×${bar.times}`;
  const size = SIZES.count;
  const width = textWidth(text, 'number', size);
  return [
    {
      row: 'name',
      left: width,
      right: 0,
      items: [{ kind: 'text', x: 0, y: 0, text, size, anchor: 'end', role: 'number', ink: 'strong' }],
    },
  ];
}

export function namesWidth(names: readonly string[] | undefined): number {
  return names === undefined ? 0 : Math.max(...names.map((name) => textWidth(name, 'count', SIZES.count))) + 1.2;
}
