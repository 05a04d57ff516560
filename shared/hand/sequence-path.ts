/** What each way to hold one chord costs by itself. */
export type Layer = readonly { readonly effort: number; readonly warns: boolean }[];

/** The changes from every way of one chord to every way of the next, at `from * ways of the next + to`. */
export interface TimedArcs {
  readonly effort: Float64Array;
  /** 1 where there is no time for the change. */
  readonly warns: Uint8Array;
}

/** One chord of a sequence, and what leads on from it; the last of a sequence that does not come round leads nowhere. */
export interface Link {
  readonly layer: Layer;
  readonly arcs?: TimedArcs;
}

/** Which way was taken for each chord. */
export interface Path {
  readonly picks: readonly number[];
  readonly warnings: number;
  readonly effort: number;
}

/** The best way through a sequence that ends: dynamic programming, so that no way through is better. */
export function bestPath(links: readonly Link[]): Path {
  return links.length === 0 ? NO_CHORDS : search(links, waysOf(links[0]), waysOf(links.at(-1)));
}

/**
 * The best way round a sequence whose last chord leads to its first. Exact, by dividing: what is found while both ends may be held in
 * any way of a group is at least as good as any way round within the group, and is one where both ends agree. Where they do not, the
 * group is halved; a group that cannot be better than a way round already found is left.
 */
export function bestCycle(links: readonly Link[]): Path {
  const narrow = links.reduce((least, link, at) => (waysOf(link).length < waysOf(links[least]).length ? at : least), 0);
  const turned = [...links.slice(narrow), ...links.slice(0, narrow)];
  const first = waysOf(turned[0]);
  if (first.length === 0) return NO_CHORDS;
  // The first chord stands at both ends, but counts once.
  const ring: readonly Link[] = [...turned, { layer: first.map(() => ({ effort: 0, warns: false })) }];
  let best: Path | undefined;
  const groups = [first];
  for (let group = groups.pop(); group !== undefined; group = groups.pop()) {
    const path = search(ring, group, group);
    if (best !== undefined && !isBetter(path, best)) continue;
    if (path.picks[0] === path.picks.at(-1)) {
      best = path;
      continue;
    }
    const half = Math.ceil(group.length / 2);
    groups.push(group.slice(half), group.slice(0, half));
  }
  const round = best?.picks.slice(0, -1) ?? [];
  const back = links.length - narrow;
  return { ...NO_CHORDS, ...best, picks: [...round.slice(back), ...round.slice(0, back)] };
}

const NO_CHORDS: Path = { picks: [], warnings: 0, effort: 0 };

function waysOf(link: Link | undefined): readonly number[] {
  return link?.layer.map((_, way) => way) ?? [];
}

interface Sum {
  readonly warnings: number;
  readonly effort: number;
}

/** Fewer warnings come first. Sums of this order may be compared before the rest is added, as dynamic programming does. */
function isBetter(one: Sum, other: Sum): boolean {
  return one.warnings < other.warnings || (one.warnings === other.warnings && one.effort < other.effort);
}

const UNREACHED: Sum = { warnings: Number.POSITIVE_INFINITY, effort: Number.POSITIVE_INFINITY };

/** The best way from one of `starts` of the first link to one of `ends` of the last. */
function search(links: readonly Link[], starts: readonly number[], ends: readonly number[]): Path {
  let here: readonly Sum[] = waysOf(links[0]).map(() => UNREACHED);
  const origins: Int32Array[] = [];
  for (const [place, { layer }] of links.entries()) {
    const arcs = links[place - 1]?.arcs;
    const origin = new Int32Array(layer.length);
    here = layer.map(({ effort, warns }, way) => {
      const own = { warnings: Number(warns), effort };
      if (place === 0) return starts.includes(way) ? own : UNREACHED;
      const from = bestFrom(here, arcs, layer.length, way);
      origin[way] = from;
      return plus(own, plus(here[from] ?? UNREACHED, arcSum(arcs, from * layer.length + way)));
    });
    origins.push(origin);
  }
  const last = ends.reduce((best, way) => (isBetter(here[way] ?? UNREACHED, here[best] ?? UNREACHED) ? way : best));
  const picks = [last];
  for (const origin of origins.slice(1).reverse()) picks.push(origin[picks.at(-1) ?? 0] ?? 0);
  return { ...(here[last] ?? UNREACHED), picks: picks.reverse() };
}

/** From which way of one chord it is best to come to the way `to` of the next; the first of equals. */
function bestFrom(here: readonly Sum[], arcs: TimedArcs | undefined, width: number, to: number): number {
  let best = 0;
  let leastWarnings = Number.POSITIVE_INFINITY;
  let leastEffort = Number.POSITIVE_INFINITY;
  for (const [from, { warnings, effort }] of here.entries()) {
    const warningsThrough = warnings + (arcs?.warns[from * width + to] ?? 0);
    const effortThrough = effort + (arcs?.effort[from * width + to] ?? 0);
    if (warningsThrough > leastWarnings || (warningsThrough === leastWarnings && effortThrough >= leastEffort))
      continue;
    best = from;
    leastWarnings = warningsThrough;
    leastEffort = effortThrough;
  }
  return best;
}

function arcSum(arcs: TimedArcs | undefined, at: number): Sum {
  return { warnings: arcs?.warns[at] ?? 0, effort: arcs?.effort[at] ?? 0 };
}

function plus(one: Sum, other: Sum): Sum {
  return { warnings: one.warnings + other.warnings, effort: one.effort + other.effort };
}
