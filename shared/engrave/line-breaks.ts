import type { ScoreBar } from '../score/timeline.ts';
import { bestBreaks, LINE_COSTS } from './best-breaks.ts';
import { STRETCH } from './sizes.ts';
import type { ReadyBar } from './tab-bar.ts';
import { closingSlot, type LinesRequest, lineStart, namesWidth } from './tab-line.ts';
import type { Staff } from './tab-piece.ts';
import { advance, type Demand, demandsOf, type Front, LINE_START, type RowNumbers } from './tab-spacing.ts';

/**
 * Indexes of the bars that begin a line, chosen for all lines at once: none too wide or too narrow, neighbours alike, as few lines
 * as that allows, no repeat or ending torn apart and no bar left over where it can be helped.
 */
export function evenBreaks(ready: readonly ReadyBar[], request: LinesRequest, staff: Staff): readonly number[] {
  const stretches = stretchesOf(ready, request, staff);
  return bestBreaks({
    bars: ready.length,
    stretchOf: (first, count) => stretches[first]?.[count - 1],
    breakCost: (first) => breakCost(ready[first - 1]?.bar, ready[first]?.bar),
  });
}

function breakCost(before: ScoreBar | undefined, next: ScoreBar | undefined): number {
  if (before === undefined || next === undefined) return 0;
  const endsRepeat = next.closes === ':|' || next.closes === ':|:';
  const beginsRepeat = [before.closes, next.opens].some((sign) => sign === '|:' || sign === ':|:');
  const inEnding = next.ending !== undefined && !next.ending.begins;
  return (endsRepeat && !beginsRepeat ? LINE_COSTS.beforeRepeatEnd : 0) + (inEnding ? LINE_COSTS.insideEnding : 0);
}

/**
 * Stretches at which widths are measured. Between them the width of a line runs nearly straight, as it is the greatest of many
 * straight lines; what is drawn in the end is placed exactly.
 */
const MEASURED = [STRETCH.comfortable, 1, 1.3, STRETCH.most] as const;

/** For each bar, the stretches at which lines of one bar, two bars and so on from it fill the width, as far as they fit. */
function stretchesOf(ready: readonly ReadyBar[], request: LinesRequest, staff: Staff): readonly (readonly number[])[] {
  const rows: RowNumbers = new Map();
  const inner = ready.map(({ slots }) => demandsOf(slots, rows));
  const closings = ready.map((_, index) => closingsOf(ready, index, rows, staff));
  const most = request.mostBars ?? ready.length;
  return ready.map((_, first) => {
    const width = request.widthMm - namesWidth(first === 0 ? request.stringNames : undefined);
    const start = lineStart(ready, first, staff);
    const opening = demandsOf(start.slots, rows);
    let fronts = MEASURED.map((stretch) => advance(LINE_START, opening, stretch));
    const found: number[] = [];
    for (let index = first; index < ready.length && index - first < most; index++) {
      // A part of a bar has a line of its own.
      if (index > first && (ready[index]?.cut !== undefined || ready[index - 1]?.cut !== undefined)) break;
      const all = inner[index] ?? [];
      const slots = index === first ? all.slice(start.taken) : all;
      const closing = closings[index];
      if (closing === undefined) break;
      const filled = fronts.map((front, at) => advance(front, slots, MEASURED[at] ?? 1));
      const ended = filled.map((front, at) => advance(front, closing.ending, MEASURED[at] ?? 1));
      if (index > first && (ended[0]?.width ?? 0) > width) break;
      found.push(
        stretchAt(
          ended.map((front) => front.width),
          width,
        ),
      );
      fronts =
        closing.ending === closing.going
          ? ended
          : filled.map((front, at): Front => advance(front, closing.going, MEASURED[at] ?? 1));
    }
    return found;
  });
}

interface Closings {
  /** The bar line where the line of music ends with the bar, and where it goes on. */
  readonly ending: readonly Demand[];
  readonly going: readonly Demand[];
}

function closingsOf(ready: readonly ReadyBar[], index: number, rows: RowNumbers, staff: Staff): Closings {
  const ending = demandsOf([closingSlot(ready, index, true, staff)], rows);
  const bar = ready[index]?.bar;
  const differs = ready[index + 1]?.bar.opens !== undefined || bar?.closes === ':|:' || bar?.closes === '|:';
  return { ending, going: differs ? demandsOf([closingSlot(ready, index, false, staff)], rows) : ending };
}

/** The stretch at which a line fills the width, from its widths at the measured stretches. */
function stretchAt(widths: readonly number[], width: number): number {
  let above = 1;
  while (above < MEASURED.length - 1 && (widths[above] ?? 0) < width) above++;
  const [low = 0, high = 0] = [widths[above - 1], widths[above]];
  const [from = 0, to = 0] = [MEASURED[above - 1], MEASURED[above]];
  // A line that does not grow is full at any stretch.
  if (high <= low) return to;
  return Math.max(STRETCH.comfortable, from + ((width - low) / (high - low)) * (to - from));
}
