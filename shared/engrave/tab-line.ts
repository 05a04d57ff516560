import type { ScoreBar } from '../score/timeline.ts';
import { SIZES, STRETCH } from './sizes.ts';
import type { ReadyBar } from './tab-bar.ts';
import { barLinePiece } from './tab-bar-line.ts';
import type { Piece, Staff } from './tab-piece.ts';
import { placeSlots, type Slot } from './tab-spacing.ts';
import { textWidth } from './text-width.ts';

/** What decides where lines end. */
export interface LinesRequest {
  readonly widthMm: number;
  /** Names of the open strings in chart order, printed before the first line. */
  readonly stringNames?: readonly string[];
  /** Most bars in one line. */
  readonly mostBars?: number;
}

/** Indexes of the bars that begin a line: as few lines as bars in comfort allow, and the bars shared out among them. */
export function evenBreaks(ready: readonly ReadyBar[], request: LinesRequest, staff: Staff): readonly number[] {
  const most = request.mostBars ?? Number.POSITIVE_INFINITY;
  const fewest = lineBreaks(ready, request, staff, most);
  if (fewest.length < 2) return fewest;
  const shared = lineBreaks(ready, request, staff, Math.min(most, Math.ceil(ready.length / fewest.length)));
  return shared.length === fewest.length ? shared : fewest;
}

function lineBreaks(ready: readonly ReadyBar[], request: LinesRequest, staff: Staff, most: number): readonly number[] {
  const breaks: number[] = [];
  for (let first = 0; first < ready.length; ) {
    breaks.push(first);
    const width = request.widthMm - namesWidth(first === 0 ? request.stringNames : undefined);
    let count = 1;
    while (
      count < Math.min(most, ready.length - first) &&
      placeSlots(lineOf(ready, first, count + 1, staff).slots, STRETCH.comfortable).width <= width
    )
      count++;
    first += count;
  }
  return breaks;
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
  const slots: Slot[] = [];
  const bars: { ready: ReadyBar; start: number; end: number; firstColumn: number }[] = [];
  const opening = ready[first];
  // A line begins with a plain stroke, or with the repeat that begins there. The meter comes before a repeat, or its dots would
  // be read into the figures. Common practice, no source.
  const begins = opening === undefined ? undefined : signAtLineStart(opening.bar, ready[first - 1]?.bar);
  const meterFirst = begins === '|:' && opening?.bar.showsMeter === true;
  if (opening !== undefined) {
    const number = numberPiece(opening.bar);
    const plain = barLinePiece(staff, { last: false });
    const begun = barLinePiece(staff, { last: false, opens: '|:' });
    if (meterFirst) {
      slots.push({ rigid: 0, spring: 0, pieces: [plain, ...number] }, ...opening.slots.slice(0, 1));
      slots.push({ rigid: 1, spring: 0, pieces: [begun] });
    } else slots.push({ rigid: 0, spring: 0, pieces: [begins === '|:' ? begun : plain, ...number] });
  }
  for (let index = first; index < first + count; index++) {
    const bar = ready[index];
    if (bar === undefined) continue;
    const start = slots.length - 1;
    const hasMeterBefore = meterFirst && index === first;
    slots.push(...(hasMeterBefore ? bar.slots.slice(1) : bar.slots));
    const next = index + 1 < first + count ? ready[index + 1] : undefined;
    const closes =
      next === undefined && bar.bar.closes === ':|:'
        ? ':|'
        : next === undefined && bar.bar.closes === '|:'
          ? '|'
          : bar.bar.closes;
    const opens = next?.bar.opens;
    const boundary = { closes, last: index === ready.length - 1, ...(opens === undefined ? {} : { opens }) };
    slots.push({
      rigid: 0,
      spring: bar.closingSpring,
      pieces: [barLinePiece(staff, boundary), ...timesPiece(bar.bar)],
    });
    bars.push({ ready: bar, start, end: slots.length - 1, firstColumn: hasMeterBefore ? start : start + 1 });
  }
  return { slots, bars };
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
