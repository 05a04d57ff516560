/** What each way to hold one chord costs by itself. */
export type Layer = readonly { readonly effort: number; readonly stretched: boolean }[];

/** One chord of a sequence, and what leads on from it; the last of a sequence that does not come round leads nowhere. */
export interface Link {
  readonly layer: Layer;
  /** What the changes cost from every way of it to every way of the next, at `from * ways of the next + to`. */
  readonly arcs?: Float64Array;
}

/** Which way was taken for each chord. */
export interface Path {
  readonly picks: readonly number[];
  readonly stretches: number;
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
  const ring: readonly Link[] = [...turned, { layer: first.map(() => ({ effort: 0, stretched: false })) }];
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

const NO_CHORDS: Path = { picks: [], stretches: 0, effort: 0 };

function waysOf(link: Link | undefined): readonly number[] {
  return link?.layer.map((_, way) => way) ?? [];
}

interface Sum {
  readonly stretches: number;
  readonly effort: number;
}

/** Fewer stretches come first. Sums of this order may be compared before the rest is added, as dynamic programming does. */
function isBetter(one: Sum, other: Sum): boolean {
  return one.stretches < other.stretches || (one.stretches === other.stretches && one.effort < other.effort);
}

const UNREACHED: Sum = { stretches: Number.POSITIVE_INFINITY, effort: Number.POSITIVE_INFINITY };

/** The best way from one of `starts` of the first link to one of `ends` of the last. */
function search(links: readonly Link[], starts: readonly number[], ends: readonly number[]): Path {
  let here: readonly Sum[] = waysOf(links[0]).map(() => UNREACHED);
  const origins: Int32Array[] = [];
  for (const [place, { layer }] of links.entries()) {
    const arcs = links[place - 1]?.arcs;
    const origin = new Int32Array(layer.length);
    here = layer.map(({ effort, stretched }, way) => {
      const own = { stretches: Number(stretched), effort };
      if (place === 0) return starts.includes(way) ? own : UNREACHED;
      const from = bestFrom(here, arcs, layer.length, way);
      origin[way] = from;
      return plus(own, plus(here[from] ?? UNREACHED, { stretches: 0, effort: arcs?.[from * layer.length + way] ?? 0 }));
    });
    origins.push(origin);
  }
  const last = ends.reduce((best, way) => (isBetter(here[way] ?? UNREACHED, here[best] ?? UNREACHED) ? way : best));
  const picks = [last];
  for (const origin of origins.slice(1).reverse()) picks.push(origin[picks.at(-1) ?? 0] ?? 0);
  return { ...(here[last] ?? UNREACHED), picks: picks.reverse() };
}

/** From which way of one chord it is best to come to the way `to` of the next; the first of equals. */
function bestFrom(here: readonly Sum[], arcs: Float64Array | undefined, width: number, to: number): number {
  let best = 0;
  let leastStretches = Number.POSITIVE_INFINITY;
  let leastEffort = Number.POSITIVE_INFINITY;
  for (const [from, { stretches, effort }] of here.entries()) {
    const effortThrough = effort + (arcs?.[from * width + to] ?? 0);
    if (stretches > leastStretches || (stretches === leastStretches && effortThrough >= leastEffort)) continue;
    best = from;
    leastStretches = stretches;
    leastEffort = effortThrough;
  }
  return best;
}

function plus(one: Sum, other: Sum): Sum {
  return { stretches: one.stretches + other.stretches, effort: one.effort + other.effort };
}
