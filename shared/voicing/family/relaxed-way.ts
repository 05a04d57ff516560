/** A choice is a number from 0 on for each chord; several steps may be the same chord. */
export interface Steps {
  /** By step: which chord it is. No two neighbouring steps are the same chord. */
  readonly chordOf: readonly number[];
  /** By step: what each choice costs there by itself. */
  readonly own: readonly Float64Array[];
  /** By step, from the one before it, at `from * choices here + to`: what the way costs; nothing for the first. */
  readonly ways: readonly (Int32Array | undefined)[];
  /** The same: 1 where the way leads up the neck, −1 down, 0 where it stays. */
  readonly directions: readonly (Int8Array | undefined)[];
  /** What it costs to turn round; steps that stay do not end a direction. */
  readonly turn: number;
}

/** Which choice was taken at each step, and what all of it costs. */
export interface Way {
  readonly picks: readonly number[];
  readonly cost: number;
}

/** Where the hand went last: nowhere yet, up, down. */
const HEADINGS = 3;
const UP = 1;
const DOWN = 2;

/**
 * The best way where a chord may be held in one way at one step and in another at the next: never dearer than the best way that
 * holds it always the same. Dynamic programming over choice and heading, so that no such way is better; of equals the first.
 * `domains` are the choices that take part, by chord. Nothing where a chord has none.
 */
export function relaxedWay(steps: Steps, domains: readonly Int32Array[]): Way | undefined {
  const { chordOf } = steps;
  let here = startOf(steps, domains);
  const origins: Int32Array[] = [];
  for (let step = 1; step < chordOf.length; step += 1) {
    const arrived = arrive(steps, domains, step, here);
    origins.push(arrived.origin);
    here = arrived.costs;
  }
  let last = -1;
  let cost = Number.POSITIVE_INFINITY;
  for (const [state, sum] of here.entries()) {
    if (sum >= cost) continue;
    cost = sum;
    last = state;
  }
  if (last < 0) return undefined;
  const picks = [Math.floor(last / HEADINGS)];
  for (const origin of origins.reverse()) {
    last = origin[last] ?? 0;
    picks.push(Math.floor(last / HEADINGS));
  }
  return { picks: picks.reverse(), cost };
}

/**
 * For each step and choice what the best way through it costs, with the same freedom: no way that holds chords always the same and
 * takes this choice is cheaper.
 */
export function costsThrough(steps: Steps, domains: readonly Int32Array[]): readonly Float64Array[] {
  const { chordOf, own } = steps;
  const before: Float64Array[] = [startOf(steps, domains)];
  for (let step = 1; step < chordOf.length; step += 1) {
    before.push(arrive(steps, domains, step, before[step - 1] ?? new Float64Array()).costs);
  }
  let ahead = new Float64Array((own.at(-1)?.length ?? 0) * HEADINGS);
  const through: Float64Array[] = [];
  for (let step = chordOf.length - 1; step >= 0; step -= 1) {
    const sums = before[step] ?? new Float64Array();
    const best = new Float64Array(sums.length / HEADINGS).fill(Number.POSITIVE_INFINITY);
    for (const choice of domains[chordOf[step] ?? 0] ?? []) {
      for (let state = choice * HEADINGS; state < (choice + 1) * HEADINGS; state += 1) {
        best[choice] = Math.min(best[choice] ?? 0, (sums[state] ?? 0) + (ahead[state] ?? 0));
      }
    }
    through.push(best);
    if (step > 0) ahead = leave(steps, domains, step, ahead);
  }
  return through.reverse();
}

function startOf({ chordOf, own }: Steps, domains: readonly Int32Array[]): Float64Array {
  const first = own[0] ?? new Float64Array();
  const costs = new Float64Array(first.length * HEADINGS).fill(Number.POSITIVE_INFINITY);
  for (const choice of domains[chordOf[0] ?? 0] ?? []) costs[choice * HEADINGS] = first[choice] ?? 0;
  return costs;
}

/** One step on: for each choice there and each heading the least that leads to it, and from which choice and heading. */
function arrive(
  { chordOf, own, ways, directions, turn }: Steps,
  domains: readonly Int32Array[],
  step: number,
  here: Float64Array,
): { readonly costs: Float64Array; readonly origin: Int32Array } {
  const there = own[step] ?? new Float64Array();
  const way = ways[step] ?? new Int32Array();
  const direction = directions[step] ?? new Int8Array();
  const width = there.length;
  const costs = new Float64Array(width * HEADINGS).fill(Number.POSITIVE_INFINITY);
  const origin = new Int32Array(width * HEADINGS);
  const targets = domains[chordOf[step] ?? 0] ?? new Int32Array();
  for (const from of domains[chordOf[step - 1] ?? 0] ?? []) {
    const at = from * HEADINGS;
    const still = here[at] ?? 0;
    const up = here[at + UP] ?? 0;
    const down = here[at + DOWN] ?? 0;
    const rising = Math.min(still, up, down + turn);
    const falling = Math.min(still, up + turn, down);
    const beforeRise = at + (rising === still ? 0 : rising === up ? UP : DOWN);
    const beforeFall = at + (falling === still ? 0 : falling === down ? DOWN : UP);
    for (let place = 0; place < targets.length; place += 1) {
      const to = targets[place] ?? 0;
      const cell = from * width + to;
      const along = (way[cell] ?? 0) + (there[to] ?? 0);
      const heads = direction[cell] ?? 0;
      const state = to * HEADINGS;
      if (heads > 0) reach(costs, origin, state + UP, rising + along, beforeRise);
      else if (heads < 0) reach(costs, origin, state + DOWN, falling + along, beforeFall);
      else {
        reach(costs, origin, state, still + along, at);
        reach(costs, origin, state + UP, up + along, at + UP);
        reach(costs, origin, state + DOWN, down + along, at + DOWN);
      }
    }
  }
  return { costs, origin };
}

/** One step back: for each choice and heading before it the least that still lies ahead. */
function leave(
  { chordOf, own, ways, directions, turn }: Steps,
  domains: readonly Int32Array[],
  step: number,
  ahead: Float64Array,
): Float64Array<ArrayBuffer> {
  const there = own[step] ?? new Float64Array();
  const way = ways[step] ?? new Int32Array();
  const direction = directions[step] ?? new Int8Array();
  const width = there.length;
  const costs = new Float64Array((own[step - 1]?.length ?? 0) * HEADINGS).fill(Number.POSITIVE_INFINITY);
  const targets = domains[chordOf[step] ?? 0] ?? new Int32Array();
  for (const from of domains[chordOf[step - 1] ?? 0] ?? []) {
    let still = Number.POSITIVE_INFINITY;
    let up = Number.POSITIVE_INFINITY;
    let down = Number.POSITIVE_INFINITY;
    for (let place = 0; place < targets.length; place += 1) {
      const to = targets[place] ?? 0;
      const cell = from * width + to;
      const along = (way[cell] ?? 0) + (there[to] ?? 0);
      const heads = direction[cell] ?? 0;
      const state = to * HEADINGS;
      if (heads === 0) {
        still = Math.min(still, along + (ahead[state] ?? 0));
        up = Math.min(up, along + (ahead[state + UP] ?? 0));
        down = Math.min(down, along + (ahead[state + DOWN] ?? 0));
        continue;
      }
      const rest = along + (ahead[state + (heads > 0 ? UP : DOWN)] ?? 0);
      still = Math.min(still, rest);
      up = Math.min(up, heads > 0 ? rest : rest + turn);
      down = Math.min(down, heads < 0 ? rest : rest + turn);
    }
    costs[from * HEADINGS] = still;
    costs[from * HEADINGS + UP] = up;
    costs[from * HEADINGS + DOWN] = down;
  }
  return costs;
}

function reach(costs: Float64Array, origin: Int32Array, state: number, cost: number, from: number): void {
  if (cost >= (costs[state] ?? 0)) return;
  costs[state] = cost;
  origin[state] = from;
}
