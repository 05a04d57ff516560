import { greatestCommonDivisor } from '../theory/rational.ts';
import type { Stretch } from './bar-tree.ts';

/** A stretch of a line that is split in a number of equal parts against its meter. Unit of places: ticks. */
export interface TupletSpan {
  readonly start: number;
  readonly end: number;
  readonly count: number;
}

/** Columns that share counts evenly, as the count says them aloud: `1-2 la li` is three from 1 to 3. Unit of places: ticks. */
export interface SaidSplit {
  readonly start: number;
  readonly end: number;
  readonly parts: number;
}

/**
 * The tuplets that a line needs, in order. Where the count says how it splits, that is how it is written; else the smallest stretch
 * of the meter that holds the split. Two or four against three in compound meters are written so, whatever dotted values could say.
 *
 * @param edges Where sounds begin and end, in order.
 * @param counts Where something is said aloud.
 * @param grid Ticks of the shortest value: what falls on its multiples needs no tuplet.
 */
export function tupletSpansOf(
  tree: Stretch,
  edges: readonly number[],
  said: readonly SaidSplit[],
  counts: readonly number[],
  grid: number,
): readonly TupletSpan[] {
  const beats = beatsOf(tree);
  const spans = said.flatMap((split) => saidSpans(split, beats, edges, grid));
  const free = edges.filter((edge) => !spans.some(({ start, end }) => edge > start && edge < end));
  for (const beat of beats)
    if (isDuplet(beat, free, counts)) spans.push({ start: beat.start, end: beat.end, count: 2 });
  if (free.some((edge) => edge % grid !== 0)) spans.push(...spansInTree(tree, free, spans, counts, grid));
  return spans.sort((a, b) => a.start - b.start);
}

function beatsOf(tree: Stretch): readonly Stretch[] {
  return tree.division === 'beat' || tree.division === 'beat-of-three' ? [tree] : tree.parts.flatMap(beatsOf);
}

function inside(edges: readonly number[], { start, end }: Pick<TupletSpan, 'start' | 'end'>): readonly number[] {
  return edges.filter((edge) => edge > start && edge < end);
}

/** In how many equal parts the edges inside split a stretch; 1 where there are none. */
function partsOf(stretch: Pick<TupletSpan, 'start' | 'end'>, edges: readonly number[]): number {
  const length = stretch.end - stretch.start;
  const part = inside(edges, stretch).reduce((step, edge) => greatestCommonDivisor(step, edge - stretch.start), length);
  return length / part;
}

function saidSpans(split: SaidSplit, beats: readonly Stretch[], edges: readonly number[], grid: number): TupletSpan[] {
  const part = (split.end - split.start) / split.parts;
  const within = inside(edges, split);
  if (within.length === 0 || within.some((edge) => (edge - split.start) % part !== 0)) return [];
  // Six in two beats are twice three.
  const bounds = beats.map(({ start }) => start).filter((at) => at > split.start && at < split.end);
  const isSplitByBeat = bounds.length > 0 && bounds.every((at) => (at - split.start) % part === 0);
  if (isSplitByBeat && partsOf(split, edges) === partsOf(split, [...edges, ...bounds])) {
    const starts = [split.start, ...bounds];
    return starts.flatMap((start, index) => {
      const end = starts[index + 1] ?? split.end;
      return saidSpans({ start, end, parts: (end - start) / part }, beats, edges, grid);
    });
  }
  const dotted = beats.some(
    (beat) => beat.division === 'beat-of-three' && beat.start === split.start && beat.end === split.end,
  );
  const needed = within.some((edge) => edge % grid !== 0) || (dotted && isPowerOfTwo(split.parts));
  return needed ? [{ start: split.start, end: split.end, count: partsOf(split, edges) }] : [];
}

/** A dotted beat that something new halves, where nothing else of the beat is played or counted. */
function isDuplet(beat: Stretch, edges: readonly number[], counts: readonly number[]): boolean {
  if (beat.division !== 'beat-of-three') return false;
  const within = inside(edges, beat);
  const middle = (beat.start + beat.end) / 2;
  return within.length === 1 && within[0] === middle && inside(counts, beat).every((at) => at === middle);
}

/** The smallest stretches that hold what is off the grid; a larger one where it splits in no more parts than its own parts would. */
function spansInTree(
  stretch: Stretch,
  edges: readonly number[],
  taken: readonly TupletSpan[],
  counts: readonly number[],
  grid: number,
): readonly TupletSpan[] {
  const within = inside(edges, stretch);
  if (!within.some((edge) => edge % grid !== 0)) return [];
  const inner = stretch.parts.filter((part) => inside(edges, part).some((edge) => edge % grid !== 0));
  const isFree = !taken.some(({ start, end }) => start < stretch.end && end > stretch.start);
  if (isFree) {
    const count = partsOf(stretch, edges);
    const smaller = Math.max(0, ...inner.map((part) => partsOf(part, edges)));
    const isSaidSmaller =
      inner.every((part) => partsOf(part, edges) === partsOf(part, [...edges, ...counts])) &&
      partsOf(stretch, [...edges, ...counts]) !== count;
    if (inner.length === 0 || (count <= smaller && !isSaidSmaller))
      return [{ start: stretch.start, end: stretch.end, count }];
  }
  return inner.flatMap((part) => spansInTree(part, edges, taken, counts, grid));
}

function isPowerOfTwo(number: number): boolean {
  return Number.isInteger(Math.log2(number));
}
