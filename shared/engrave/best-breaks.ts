import { STRETCH } from './sizes.ts';

/** Bars in a row that have to be put on lines. */
export interface BreakProblem {
  readonly bars: number;
  /**
   * The stretch at which so many bars from `first` on fill a line; undefined where they cannot stand on one. One bar always can,
   * and where some cannot, more cannot.
   */
  readonly stretchOf: (first: number, count: number) => number | undefined;
  /** What speaks against beginning a line with this bar; 0 where nothing does. */
  readonly breakCost: (bar: number) => number;
}

/**
 * What speaks against a layout, as sums of squares: 1 is a line stretched or squeezed as far as one may be. Unit: none.
 * Source: our own, tried on the samples.
 */
export const LINE_COSTS = {
  /** A further line, and with it paper. */
  line: 0.6,
  /** Two lines that follow each other, one as wide as can be and one at its natural width. */
  uneven: 1,
  /** One short bar left over for the last line. */
  lonelyBar: 1.2,
  /** The next line would end a repeat with its first bar. */
  beforeRepeatEnd: 0.5,
  insideEnding: 0.6,
  /** The line ends inside a section, where others end with a double bar. */
  insideSection: 0.25,
  /** A last line that is empty; a share of it as its square. */
  shortLast: 0.8,
} as const;

/** Most that the last line is stretched to fill the width: a line that nearly does, and ends short, looks like a mistake. */
export function mostToFill(before: number | undefined): number {
  return Math.min(STRETCH.filled, Math.max(1, before ?? STRETCH.filled) * STRETCH.filledAgainstBefore);
}

/** How far the last line is stretched that would fill the width at `needed`: so far, or else hardly more than the line before it. */
export function lastStretch(needed: number, before: number | undefined): number {
  if (needed < mostToFill(before)) return needed;
  return Math.min(STRETCH.lastLine, Math.max(1, (before ?? 1) * STRETCH.lastAgainstBefore));
}

/**
 * Indexes of the bars that begin a line, so that all lines together cost least. Every way to break is weighed: a line's share
 * depends on itself and the line before it, so it is enough to keep the cheapest way to each possible line.
 */
export function bestBreaks(problem: BreakProblem): readonly number[] {
  const endingAt: Candidate[][] = Array.from({ length: problem.bars + 1 }, () => []);
  for (let first = 0; first < problem.bars; first++) {
    const before = endingAt[first] ?? [];
    for (let count = 1; first + count <= problem.bars; count++) {
      const stretch = problem.stretchOf(first, count);
      if (stretch === undefined) break;
      const line = { first, count, stretch };
      const cheapest =
        first === 0 ? { ...line, cost: costOfLine(problem, line, undefined) } : append(problem, line, before);
      if (cheapest !== undefined) endingAt[first + count]?.push(cheapest);
    }
  }
  const breaks: number[] = [];
  for (let at = cheapestOf(endingAt[problem.bars] ?? []); at !== undefined; at = at.before) breaks.unshift(at.first);
  return breaks;
}

/** A line of a layout. */
export interface WeighedLine {
  readonly first: number;
  readonly count: number;
  /** At which it would fill the width. */
  readonly stretch: number;
}

/** A line, and the cheapest lines that lead to it. */
interface Candidate extends WeighedLine {
  readonly cost: number;
  readonly before?: Candidate;
}

function append(problem: BreakProblem, line: WeighedLine, before: readonly Candidate[]): Candidate | undefined {
  let least = Number.POSITIVE_INFINITY;
  let best: Candidate | undefined;
  for (const candidate of before) {
    const cost = candidate.cost + costOfLine(problem, line, candidate);
    if (cost >= least) continue;
    least = cost;
    best = candidate;
  }
  return best === undefined ? undefined : { ...line, cost: least, before: best };
}

/** Of lines that cost the same, the one with more bars before it: a short line is better last. */
function cheapestOf(lines: readonly Candidate[]): Candidate | undefined {
  return lines.reduce<Candidate | undefined>(
    (best, line) => (best === undefined || line.cost <= best.cost ? line : best),
    undefined,
  );
}

/** What a line adds to the cost of a layout, behind the line before it. */
export function costOfLine(problem: BreakProblem, line: WeighedLine, before: WeighedLine | undefined): number {
  const isLast = line.first + line.count === problem.bars;
  const room = isLast ? lastStretch(line.stretch, before?.stretch) : line.stretch;
  // The last line may end where it likes, so only squeezing speaks against it.
  const strain = isLast && room >= 1 ? 0 : strainOf(room) ** 2;
  if (before === undefined) return LINE_COSTS.line + strain;
  const short = isLast ? LINE_COSTS.shortLast * Math.max(0, 1 - room / line.stretch) ** 2 : 0;
  const uneven = LINE_COSTS.uneven * (Math.log(room / before.stretch) / Math.log(STRETCH.most)) ** 2;
  const lonely = isLast && line.count === 1 && line.stretch > STRETCH.lastLine ? LINE_COSTS.lonelyBar : 0;
  return LINE_COSTS.line + strain + uneven + short + lonely + problem.breakCost(line.first);
}

/** 0 at the natural width, 1 as wide or as narrow as is comfortable. */
function strainOf(stretch: number): number {
  return Math.log(stretch) / Math.log(stretch < 1 ? STRETCH.comfortable : STRETCH.most);
}
