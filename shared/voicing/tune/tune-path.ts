import { DIRECTION_POINTS, LEAP_FROM_SEMITONES } from './tune-table.ts';

/**
 * How a note was come to, and so what it wants next: semitones up or down, thirds and leaps taken together. The first stands for no
 * way at all, as at the beginning.
 */
const TRENDS = [0, 1, 2, 3, LEAP_FROM_SEMITONES, -1, -2, -3, -LEAP_FROM_SEMITONES] as const;
const WIDTH = TRENDS.length;

/** One moment of a tune, with what each of its candidates costs by itself. */
export interface PathLayer {
  /** By candidate; without end where it may not stand here. Unit: points. */
  readonly points: Float64Array;
}

/** From every candidate of one moment to every one of the next, at `from * next moment's candidates + to`. */
export interface PathLink {
  /** Without end where the tune may not go so. Unit: points. */
  readonly points: Float64Array;
  /** How the later note is come to, as a place in `TRENDS`. */
  readonly trends: Uint8Array;
  /** By the earlier note, those that the points allow. */
  readonly follows: readonly Uint16Array[];
  /** Where the line goes up (1), down (−1), or neither. */
  readonly slope: -1 | 0 | 1;
  /** The line itself turns here, or begins anew: the tune may turn with it. */
  readonly mayTurn: boolean;
}

/** A tune as a choice among candidates: one of each layer. There is a link less than there are layers. */
export interface PathProblem {
  readonly layers: readonly PathLayer[];
  readonly links: readonly PathLink[];
}

export interface TunePath {
  /** By layer, the place of the candidate chosen. */
  readonly picks: readonly number[];
  readonly points: number;
}

/**
 * The choice with the fewest points; of equals the one that comes first, note by note from the end. Exact: every choice takes part.
 * Nothing where none is allowed.
 *
 * What a note costs depends on the note before and on how that one was come to, so both make the state.
 */
export function bestTunePath({ layers, links }: PathProblem): TunePath | undefined {
  const first = layers[0];
  if (first === undefined) return undefined;
  let reached = new Float64Array(first.points.length * WIDTH).fill(Number.POSITIVE_INFINITY);
  for (const [at, points] of first.points.entries()) reached[at * WIDTH] = points;
  const cameFrom: Int32Array[] = [];
  const tables = new Map<string, Float64Array>();
  for (const [at, link] of links.entries()) {
    const layer = layers[at + 1];
    if (layer === undefined) return undefined;
    const kind = `${link.slope} ${link.mayTurn}`;
    const turning = tables.get(kind) ?? directionTable(link);
    tables.set(kind, turning);
    const step = stepOver(link, turning, reached, layer.points);
    reached = step.reached;
    cameFrom.push(step.cameFrom);
  }
  let best = -1;
  let points = Number.POSITIVE_INFINITY;
  for (const [state, cost] of reached.entries()) {
    if (cost >= points) continue;
    points = cost;
    best = state;
  }
  if (best < 0) return undefined;
  const picks = [Math.floor(best / WIDTH)];
  for (let at = cameFrom.length - 1; at >= 0; at -= 1) {
    best = cameFrom[at]?.[best] ?? 0;
    picks.push(Math.floor(best / WIDTH));
  }
  return { picks: picks.reverse(), points };
}

function stepOver(link: PathLink, turning: Float64Array, reached: Float64Array, layer: Float64Array) {
  const width = layer.length;
  const next = new Float64Array(width * WIDTH).fill(Number.POSITIVE_INFINITY);
  const cameFrom = new Int32Array(width * WIDTH).fill(-1);
  const rows = reached.length / WIDTH;
  for (let from = 0; from < rows; from += 1) {
    const trends = trendsReached(reached, from);
    if (trends.length === 0) continue;
    for (const to of link.follows[from] ?? []) {
      const pair = from * width + to;
      const base = (link.points[pair] ?? 0) + (layer[to] ?? 0);
      if (base === Number.POSITIVE_INFINITY) continue;
      const arrives = link.trends[pair] ?? 0;
      for (const trend of trends) {
        const state = from * WIDTH + trend;
        const cost = (reached[state] ?? 0) + base + (turning[trend * WIDTH + arrives] ?? 0);
        // A note that comes again keeps what the one before wanted.
        const into = to * WIDTH + (arrives === 0 ? trend : arrives);
        if (cost >= (next[into] ?? 0)) continue;
        next[into] = cost;
        cameFrom[into] = state;
      }
    }
  }
  return { reached: next, cameFrom };
}

function trendsReached(reached: Float64Array, from: number): readonly number[] {
  const trends: number[] = [];
  for (let trend = 0; trend < WIDTH; trend += 1) {
    if (reached[from * WIDTH + trend] !== Number.POSITIVE_INFINITY) trends.push(trend);
  }
  return trends;
}

/** What directions cost over a link, at `trend before * trends + trend now`. Unit: points. */
function directionTable({ slope, mayTurn }: PathLink): Float64Array {
  const table = new Float64Array(WIDTH * WIDTH);
  for (let before = 0; before < WIDTH; before += 1) {
    for (let now = 0; now < WIDTH; now += 1) {
      table[before * WIDTH + now] = pointsOfDirection(before, now, slope, mayTurn);
    }
  }
  return table;
}

/** What it costs to go on as `now` after `before`, both places in `TRENDS`. Unit: points. */
function pointsOfDirection(before: number, now: number, slope: -1 | 0 | 1, mayTurn: boolean): number {
  const [came, goes] = [TRENDS[before] ?? 0, TRENDS[now] ?? 0];
  const against = Math.sign(goes) === -slope && slope !== 0 ? DIRECTION_POINTS.against : 0;
  const turns = came * goes < 0;
  // There and back again is no way to go, not even at the top.
  const returns = turns && came === -goes && Math.abs(goes) < LEAP_FROM_SEMITONES ? DIRECTION_POINTS.returns : 0;
  if (mayTurn) return against + returns;
  const turn = turns ? DIRECTION_POINTS.turn : 0;
  if (Math.abs(came) < LEAP_FROM_SEMITONES) return against + returns + turn;
  // A step back is what a leap wants.
  return against + (turns && Math.abs(goes) <= 2 ? 0 : DIRECTION_POINTS.leapLeftOpen + turn);
}

/** How a note is come to over so many semitones: a place in `TRENDS`. */
export function trendOf(semitones: number): number {
  const size = Math.abs(semitones);
  const told = size >= LEAP_FROM_SEMITONES ? LEAP_FROM_SEMITONES : Math.min(size, 3);
  return TRENDS.findIndex((trend) => trend === Math.sign(semitones) * told);
}

/** What a choice costs, added up note by note: the measure that `bestTunePath` minimises. */
export function pointsOfPath({ layers, links }: PathProblem, picks: readonly number[]): number {
  let trend = 0;
  let points = layers[0]?.points[picks[0] ?? -1] ?? Number.POSITIVE_INFINITY;
  for (const [at, link] of links.entries()) {
    const layer = layers[at + 1]?.points;
    const [from, to] = [picks[at] ?? -1, picks[at + 1] ?? -1];
    if (layer === undefined || from < 0 || to < 0) return Number.POSITIVE_INFINITY;
    const pair = from * layer.length + to;
    const now = link.trends[pair] ?? 0;
    points += (link.points[pair] ?? Number.POSITIVE_INFINITY) + (layer[to] ?? Number.POSITIVE_INFINITY);
    points += pointsOfDirection(trend, now, link.slope, link.mayTurn);
    if (now !== 0) trend = now;
  }
  return points;
}
