import { hurryOf, judgeSeconds } from './change-speed.ts';
import { EASY_SHARE, GREATEST_HURRY, HURRY_EFFORT } from './change-table.ts';

/** What each way to hold one chord costs by itself. */
export type Layer = readonly { readonly effort: number; readonly warns: boolean }[];

/** The changes from every way of one chord to every way of the next, at `from * ways of the next + to`. */
export interface Arcs {
  readonly effort: Float64Array;
  readonly neededSeconds: Float64Array;
}

/** One chord of a sequence, and what leads on from it; the last of a sequence that does not come round leads nowhere. */
export interface Link {
  readonly layer: Layer;
  readonly arc?: Arcs;
  readonly seconds?: number;
}

/** Which way was taken for each chord. */
export interface Path {
  readonly picks: readonly number[];
  readonly warnings: number;
  readonly effort: number;
}

/** The best way through a sequence that ends: dynamic programming, so that no way through is better. */
export function bestPath(links: readonly Link[]): Path {
  return search(links, undefined) ?? NO_CHORDS;
}

/**
 * The best way round a sequence whose last chord leads to its first: once for every way to hold one of its chords, the one with the
 * fewest, with that way at both ends. Exact, because the best way round holds that chord somehow.
 */
export function bestCycle(links: readonly Link[]): Path {
  const narrow = links.reduce(
    (least, { layer }, at) => (layer.length < (links[least]?.layer.length ?? 0) ? at : least),
    0,
  );
  const turned = [...links.slice(narrow), ...links.slice(0, narrow)];
  let best: Path | undefined;
  for (let start = 0; start < (turned[0]?.layer.length ?? 0); start += 1) {
    const path = search(turned, start);
    if (path !== undefined && (best === undefined || isBetter(path, best))) best = path;
  }
  if (best === undefined) return NO_CHORDS;
  const back = links.length - narrow;
  return { ...best, picks: [...best.picks.slice(back), ...best.picks.slice(0, back)] };
}

const NO_CHORDS: Path = { picks: [], warnings: 0, effort: 0 };

interface Sum {
  readonly warnings: number;
  readonly effort: number;
}

/** Fewer warnings come first. Sums of this order may be compared before the rest is added, as dynamic programming does. */
function isBetter(one: Sum, other: Sum): boolean {
  return one.warnings < other.warnings || (one.warnings === other.warnings && one.effort < other.effort);
}

/** With `start`, the first chord is held that way and the last one leads back to it; without, the sequence ends. */
function search(links: readonly Link[], start: number | undefined): Path | undefined {
  const [first] = links;
  if (first === undefined) return undefined;
  let here = first.layer.map(({ effort, warns }, way) => ({
    warnings: start === undefined || way === start ? Number(warns) : Number.POSITIVE_INFINITY,
    effort,
  }));
  const origins: Int32Array[] = [];
  for (const [place, link] of links.entries()) {
    const next = links[place + 1];
    const closing: Layer = start === undefined ? [] : first.layer.map(() => ({ effort: 0, warns: false }));
    const layer = next?.layer ?? closing;
    if (layer.length === 0) break;
    const origin = new Int32Array(layer.length);
    here = layer.map((way, to) => {
      const best = bestInto(link, here, layer.length, to);
      origin[to] = best.from;
      return { warnings: best.warnings + Number(way.warns), effort: best.effort + way.effort };
    });
    origins.push(origin);
  }
  const last = start ?? indexOfBest(here);
  const end = here[last];
  return end === undefined ? undefined : { ...end, picks: traceBack(origins, last, start !== undefined) };
}

/** The best way from any way of one chord to the way `to` of the next; the first of equals. */
function bestInto(
  { arc, seconds }: Link,
  here: readonly Sum[],
  width: number,
  to: number,
): Sum & { readonly from: number } {
  let best = { from: 0, warnings: Number.POSITIVE_INFINITY, effort: Number.POSITIVE_INFINITY };
  for (const [from, { warnings, effort }] of here.entries()) {
    if (warnings > best.warnings) continue;
    const needed = arc?.neededSeconds[from * width + to] ?? 0;
    const way = {
      from,
      warnings: warnings + Number(seconds !== undefined && judgeSeconds(needed, seconds) === 'too-quick'),
      effort:
        effort + (arc?.effort[from * width + to] ?? 0) + (seconds === undefined ? 0 : hurryEffort(needed, seconds)),
    };
    if (isBetter(way, best)) best = way;
  }
  return best;
}

/** Never falls with the time needed, never grows with the time there is. Unit: effort. */
function hurryEffort(neededSeconds: number, seconds: number): number {
  const hurry = Math.min(GREATEST_HURRY, hurryOf(neededSeconds, seconds));
  return HURRY_EFFORT * Math.max(0, hurry - EASY_SHARE);
}

function indexOfBest(sums: readonly Sum[]): number {
  let best = 0;
  for (const [at, sum] of sums.entries()) if (isBetter(sum, sums[best] ?? sum)) best = at;
  return best;
}

/** A way round ends where it began, which is one pick less than there are steps. */
function traceBack(origins: readonly Int32Array[], last: number, round: boolean): readonly number[] {
  const picks = [last];
  for (const origin of [...origins].reverse()) picks.unshift(origin[picks[0] ?? 0] ?? 0);
  return round ? picks.slice(0, -1) : picks;
}
