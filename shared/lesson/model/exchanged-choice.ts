/** One choice is to be made for each of several things; what it costs hangs on single choices and on pairs of them. */
export interface ChoiceProblem {
  /** How many choices each thing has, one at least. */
  readonly sizes: readonly number[];
  /** What a choice costs by itself. */
  readonly alone: (thing: number, choice: number) => number;
  /** Two different things each; a pair may come more than once. */
  readonly pairs: readonly (readonly [number, number])[];
  /** What the choices of both cost together; asked with the pair's place in the list. */
  readonly between: (pair: number, first: number, second: number) => number;
}

/**
 * A choice for each thing that no exchange of a single one makes cheaper: beginning with the best of each, single choices are exchanged
 * while that helps. For the shapes of lessons that is nearly always the least sum of all, and never much more, as the tests show by
 * trying everything; to be certain would ask for many more pairs, and each of those takes the hand a while.
 */
export function exchangedChoice({ sizes, alone, pairs, between }: ChoiceProblem): readonly number[] {
  const chosen = sizes.map((size, thing) => {
    const costs = Array.from({ length: size }, (_, choice) => alone(thing, choice));
    return costs.indexOf(Math.min(...costs));
  });
  const around = sizes.map((_, thing) =>
    pairs.flatMap(([first, second], pair) => (first === thing || second === thing ? [{ first, second, pair }] : [])),
  );
  const costOf = (thing: number, choice: number): number =>
    (around[thing] ?? []).reduce(
      (sum, { first, second, pair }) => {
        const [a, b] = [first, second].map((one) => (one === thing ? choice : (chosen[one] ?? 0)));
        return sum + between(pair, a ?? 0, b ?? 0);
      },
      alone(thing, choice),
    );
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    let moved = false;
    for (const [thing, size] of sizes.entries()) {
      if (size < 2) continue;
      const costs = Array.from({ length: size }, (_, choice) => costOf(thing, choice));
      const best = costs.indexOf(Math.min(...costs));
      if (best === chosen[thing]) continue;
      chosen[thing] = best;
      moved = true;
    }
    if (!moved) break;
  }
  return chosen;
}

/** Each round makes it better, so that it ends by itself; more rounds than this change nothing that could be felt. */
const MOST_ROUNDS = 6;
