import type { ScoreBar } from '../score/timeline.ts';
import { bestBreaks, LINE_COSTS } from './best-breaks.ts';
import { STRETCH } from './sizes.ts';
import type { ReadyBar } from './tab-bar.ts';
import { type LinesRequest, lineOf, namesWidth } from './tab-line.ts';
import type { Staff } from './tab-piece.ts';
import { placeSlots, placesAt, type Slot } from './tab-spacing.ts';

/**
 * Indexes of the bars that begin a line, chosen for all lines at once: none too wide or too narrow, neighbours alike, as few lines
 * as that allows, no repeat or ending torn apart and no bar left over where it can be helped. Lines had better end with a section:
 that a double bar stands best at the end of a line is common practice of engraving, no source.
 */
export function evenBreaks(ready: readonly ReadyBar[], request: LinesRequest, staff: Staff): readonly number[] {
  const stretches = stretchesOf(ready, request, staff);
  const inSections = ready.slice(0, -1).some(({ bar }) => endsSection(bar));
  return bestBreaks({
    bars: ready.length,
    stretchOf: (first, count) => stretches[first]?.[count - 1],
    breakCost: (first) => {
      const before = ready[first - 1]?.bar;
      const torn = inSections && before !== undefined && !endsSection(before);
      return breakCost(before, ready[first]?.bar) + (torn ? LINE_COSTS.insideSection : 0);
    },
  });
}

function endsSection({ closes, ending }: ScoreBar): boolean {
  return closes === '||' || ending?.ends === true || (closes !== '|' && ending === undefined);
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
const MEASURED = [STRETCH.comfortable, 1.2, STRETCH.most] as const;

/** How far the measured width of a line may be from its own, because its ends are not those of the endless line. Unit: of its width. */
const UNSURE = 0.04;

/** For each bar, the stretches at which lines of one bar, two bars and so on from it fill the width, as far as they fit. */
function stretchesOf(ready: readonly ReadyBar[], request: LinesRequest, staff: Staff): readonly (readonly number[])[] {
  const most = request.mostBars ?? ready.length;
  // All bars are placed on one endless line, once for each stretch; the way from bar line to bar line is then a difference.
  const edges = endlessLines(ready, staff);
  return ready.map((_, first) => {
    const width = request.widthMm - namesWidth(first === 0 ? request.stringNames : undefined);
    const found: number[] = [];
    for (let count = 1; count <= most && first + count <= ready.length; count++) {
      // A part of a bar has a line of its own.
      if (count > 1 && [count - 2, count - 1].some((index) => ready[first + index]?.cut !== undefined)) break;
      const squeezed = widthAt(edges[0], first, count);
      if (count > 1 && !fits(squeezed, width, () => lineOf(ready, first, count, staff).slots)) break;
      found.push(stretchAt((at) => widthAt(edges[at], first, count), width));
    }
    return found;
  });
}

function fits(measured: number, width: number, slots: () => readonly Slot[]): boolean {
  if (measured > width * (1 + UNSURE)) return false;
  if (measured < width * (1 - UNSURE)) return true;
  return placeSlots(slots(), STRETCH.comfortable).width <= width;
}

/** For each measured stretch, where the bar line before each bar stands and where the last one does. */
function endlessLines(ready: readonly ReadyBar[], staff: Staff): readonly (readonly number[])[] {
  const { slots, bars } = lineOf(ready, 0, ready.length, staff);
  const places = [0, ...bars.map(({ end }) => end)];
  return placesAt(slots, MEASURED).map((xs) => places.map((slot) => xs[slot] ?? 0));
}

function widthAt(xs: readonly number[] | undefined, first: number, count: number): number {
  return (xs?.[first + count] ?? 0) - (xs?.[first] ?? 0);
}

/** The stretch at which a line fills the width, from its widths at the measured stretches. */
function stretchAt(widthOf: (measured: number) => number, width: number): number {
  let above = 1;
  while (above < MEASURED.length - 1 && widthOf(above) < width) above++;
  const low = widthOf(above - 1);
  const high = widthOf(above);
  const from = MEASURED[above - 1] ?? 1;
  const to = MEASURED[above] ?? 1;
  // A line that does not grow is full at any stretch.
  if (high <= low) return to;
  return Math.max(STRETCH.comfortable, from + ((width - low) / (high - low)) * (to - from));
}
