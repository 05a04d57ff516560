import type { InSteps } from '../in-steps.ts';

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
  return relaxedWays(steps, undefined, Number.POSITIVE_INFINITY)(domains);
}

/**
 * The same for many questions: ways that cost more than the limit are left out. Where it is known what lies ahead of each choice (see
 * `leastAhead`), nothing is followed that cannot come out below the limit; and the tables are used again.
 */
export function relaxedWays(
  steps: Steps,
  ahead: readonly Float64Array[] | undefined,
  limit: number,
): (domains: readonly Int32Array[]) => Way | undefined {
  const { chordOf, own } = steps;
  const costs = own.map(({ length }) => new Float64Array(length * HEADINGS));
  const origins = own.map(({ length }) => new Int32Array(length * HEADINGS));
  return (domains) => {
    begin(steps, domains, at(costs, 0));
    for (let step = 1; step < chordOf.length; step += 1) {
      const before = at(costs, step - 1);
      if (ahead !== undefined) forget(before, at(ahead, step - 1), domains[chordOf[step - 1] ?? 0], limit);
      unreached(steps, domains, step, at(costs, step));
      arrive(steps, domains, step, domains[chordOf[step - 1] ?? 0] ?? NONE, before, at(costs, step), origins[step]);
    }
    let last = -1;
    let cost = Number.POSITIVE_INFINITY;
    const ends = at(costs, chordOf.length - 1);
    for (const choice of domains[chordOf.at(-1) ?? 0] ?? NONE) {
      for (let state = choice * HEADINGS; state < (choice + 1) * HEADINGS; state += 1) {
        const sum = ends[state] ?? 0;
        if (sum >= cost) continue;
        cost = sum;
        last = state;
      }
    }
    if (last < 0 || cost > limit) return undefined;
    const picks = new Array<number>(chordOf.length);
    for (let step = chordOf.length - 1; step >= 0; step -= 1) {
      picks[step] = Math.floor(last / HEADINGS);
      last = origins[step]?.[last] ?? 0;
    }
    return { picks, cost };
  };
}

const NONE = new Int32Array();

function at(tables: readonly Float64Array[], step: number): Float64Array {
  return tables[step] ?? new Float64Array();
}

/** States from which no way comes out below the limit are gone. */
function forget(costs: Float64Array, ahead: Float64Array, choices: Int32Array | undefined, limit: number): void {
  for (const choice of choices ?? NONE) {
    for (let state = choice * HEADINGS; state < (choice + 1) * HEADINGS; state += 1) {
      if ((costs[state] ?? 0) + (ahead[state] ?? 0) > limit) costs[state] = Number.POSITIVE_INFINITY;
    }
  }
}

/** By step, choice and heading the least that still lies ahead, among these choices. Cut into steps. */
export function* leastAhead(steps: Steps, domains: readonly Int32Array[]): InSteps<readonly Float64Array[]> {
  const { chordOf, own } = steps;
  const ahead = own.map(({ length }) => new Float64Array(length * HEADINGS));
  for (let step = chordOf.length - 1; step > 0; step -= 1) {
    for (const some of partsOf(domains[chordOf[step - 1] ?? 0] ?? NONE, own[step]?.length ?? 0)) {
      leave(steps, domains, step, some, at(ahead, step), at(ahead, step - 1));
      yield;
    }
  }
  return ahead;
}

/** So many pairs are looked at in one step of the work. Unit: pairs; measured: about a millisecond. */
const PAIRS_OF_STEP = 200_000;

/** Choices in parts, each of which comes to so many pairs with the `width` choices of a neighbour. */
function partsOf(choices: Int32Array, width: number): readonly Int32Array[] {
  const size = Math.max(1, Math.floor(PAIRS_OF_STEP / Math.max(1, width)));
  return Array.from({ length: Math.ceil(choices.length / size) }, (_, part) =>
    choices.subarray(part * size, (part + 1) * size),
  );
}

/**
 * For each step and choice what the best way through it costs, with the same freedom: no way that holds chords always the same and
 * takes this choice is cheaper. Cut into steps.
 */
export function* costsThroughInSteps(steps: Steps, domains: readonly Int32Array[]): InSteps<readonly Float64Array[]> {
  const { chordOf, own } = steps;
  const ahead = yield* leastAhead(steps, domains);
  const tables = [0, 1].map(() => new Float64Array(Math.max(0, ...own.map(({ length }) => length)) * HEADINGS));
  const through: Float64Array[] = [];
  for (const [step, { length }] of own.entries()) {
    const sums = at(tables, step % 2);
    if (step === 0) begin(steps, domains, sums);
    else {
      unreached(steps, domains, step, sums);
      for (const some of partsOf(domains[chordOf[step - 1] ?? 0] ?? NONE, length)) {
        arrive(steps, domains, step, some, at(tables, (step - 1) % 2), sums, undefined);
        yield;
      }
    }
    const best = new Float64Array(length).fill(Number.POSITIVE_INFINITY);
    const rest = at(ahead, step);
    for (const choice of domains[chordOf[step] ?? 0] ?? NONE) {
      for (let state = choice * HEADINGS; state < (choice + 1) * HEADINGS; state += 1) {
        best[choice] = Math.min(best[choice] ?? 0, (sums[state] ?? 0) + (rest[state] ?? 0));
      }
    }
    through.push(best);
  }
  return through;
}

/** The first step: the hand has gone nowhere yet. Only what is asked for is written. */
function begin({ chordOf, own }: Steps, domains: readonly Int32Array[], costs: Float64Array): void {
  const first = own[0] ?? NOTHING_AHEAD;
  for (const choice of domains[chordOf[0] ?? 0] ?? NONE) {
    costs[choice * HEADINGS] = first[choice] ?? 0;
    costs[choice * HEADINGS + UP] = Number.POSITIVE_INFINITY;
    costs[choice * HEADINGS + DOWN] = Number.POSITIVE_INFINITY;
  }
}

/** Nothing leads to the choices of a step yet. */
function unreached({ chordOf }: Steps, domains: readonly Int32Array[], step: number, costs: Float64Array): void {
  for (const to of domains[chordOf[step] ?? 0] ?? NONE) {
    costs.fill(Number.POSITIVE_INFINITY, to * HEADINGS, (to + 1) * HEADINGS);
  }
}

/**
 * One step on from some choices: for each choice there and each heading the least that leads to it, and where it is asked for, from
 * which choice and heading. Only the choices of the domains are written.
 */
function arrive(
  { chordOf, own, ways, directions, turn }: Steps,
  domains: readonly Int32Array[],
  step: number,
  some: Int32Array,
  here: Float64Array,
  costs: Float64Array,
  origin: Int32Array | undefined,
): void {
  const there = own[step] ?? NOTHING_AHEAD;
  const way = ways[step] ?? NONE;
  const direction = directions[step] ?? NO_DIRECTION;
  const width = there.length;
  const targets = domains[chordOf[step] ?? 0] ?? NONE;
  for (const from of some) {
    const state = from * HEADINGS;
    const still = here[state] ?? 0;
    const up = here[state + UP] ?? 0;
    const down = here[state + DOWN] ?? 0;
    const rising = Math.min(still, up, down + turn);
    const falling = Math.min(still, up + turn, down);
    if (rising === Number.POSITIVE_INFINITY && falling === Number.POSITIVE_INFINITY) continue;
    const beforeRise = state + (rising === still ? 0 : rising === up ? UP : DOWN);
    const beforeFall = state + (falling === still ? 0 : falling === down ? DOWN : UP);
    for (let place = 0; place < targets.length; place += 1) {
      const to = targets[place] ?? 0;
      const cell = from * width + to;
      const along = (way[cell] ?? 0) + (there[to] ?? 0);
      const heads = direction[cell] ?? 0;
      const into = to * HEADINGS;
      if (heads > 0) reach(costs, origin, into + UP, rising + along, beforeRise);
      else if (heads < 0) reach(costs, origin, into + DOWN, falling + along, beforeFall);
      else {
        reach(costs, origin, into, still + along, state);
        reach(costs, origin, into + UP, up + along, state + UP);
        reach(costs, origin, into + DOWN, down + along, state + DOWN);
      }
    }
  }
}

const NO_DIRECTION = new Int8Array();
const NOTHING_AHEAD = new Float64Array();

/** One step back to some choices: for each of them and each heading the least that still lies ahead. */
function leave(
  { chordOf, own, ways, directions, turn }: Steps,
  domains: readonly Int32Array[],
  step: number,
  some: Int32Array,
  ahead: Float64Array,
  costs: Float64Array,
): void {
  const there = own[step] ?? NOTHING_AHEAD;
  const way = ways[step] ?? NONE;
  const direction = directions[step] ?? NO_DIRECTION;
  const width = there.length;
  const targets = domains[chordOf[step] ?? 0] ?? NONE;
  for (const from of some) {
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
}

function reach(costs: Float64Array, origin: Int32Array | undefined, state: number, cost: number, from: number): void {
  if (cost >= (costs[state] ?? 0)) return;
  costs[state] = cost;
  if (origin !== undefined) origin[state] = from;
}
