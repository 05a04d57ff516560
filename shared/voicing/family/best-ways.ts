import { atOnce, type InSteps } from '../in-steps.ts';
import { type Node, pop, push } from './node-queue.ts';
import { choicesIn, onlyWith, type ProgressionInNumbers, stepsOf, withoutDearer } from './progression-in-numbers.ts';
import { costsThroughInSteps, leastAhead, relaxedWay, relaxedWays, type Steps, type Way } from './relaxed-way.ts';

/** A way that holds each chord always the same: by chord, which choice. */
export interface HeldWay {
  readonly choices: readonly number[];
  readonly cost: number;
}

export interface BestWays {
  /** Best first; each is the best of all that are different from those before it. */
  readonly ways: readonly HeldWay[];
  /** False where the work was given up before that was certain. The ways are right all the same, but there may be better or more. */
  readonly settled: boolean;
}

/** Ways through a progression that are worked out before it is given up. A usual progression takes a hundred. Common practice, no source. */
const MOST_WORK = 4000;

/** So many choices of each chord are searched first, and then so many, to learn what good ways cost. Unit: choices. */
const FIRST_CHOICES = [8, 24];

/** The second search is worth its time where so many times as many choices are left. Unit: none; measured. */
const FEW_MORE = 2;

/** How far beyond the least that is possible the search looks where these do not tell, and how that grows. Unit: points; none. */
const FIRST_SLACK = 400;
const GROWTH = 1.6;

/**
 * The best `count` different ways to hold a progression, each chord always the same. Exact: the first is the best of all; each
 * further one is the best of all those that are not alike any before it.
 *
 * Only what cannot cost more than a limit takes part, and the limit grows until enough is found below it. Within it: dynamic
 * programming finds the best way while chords may change from one place to another, which is never dearer than what is sought; what
 * is found so is divided, best first, by the chord that changed, by two chords that came to the same shape, or by the chords in which
 * it is too like a way that is taken.
 */
export function bestWays(progression: ProgressionInNumbers, count: number, mostWork: number = MOST_WORK): BestWays {
  return atOnce(bestWaysInSteps(progression, count, mostWork));
}

/** The same, cut into steps. */
export function* bestWaysInSteps(
  progression: ProgressionInNumbers,
  count: number,
  mostWork: number = MOST_WORK,
): InSteps<BestWays> {
  const { own, leastBetween } = progression;
  if (own.some(({ length }) => length === 0)) return { ways: [], settled: true };
  const through = yield* leastThrough(
    progression,
    yield* stepsOf(progression, own.map(everyPlace), (from, to) => leastBetween(from.chord, to.chord)),
  );
  const least = through[0]?.reduce((a, b) => Math.min(a, b)) ?? 0;
  // What is found among a few may be far from the best, but what costs more than all of it need not be looked at.
  let dearest = Number.POSITIVE_INFINITY;
  for (const size of FIRST_CHOICES) {
    const few = through.map((costs) => cheapest(costs, size));
    const left = through.map((costs) => costs.reduce((sum, cost) => sum + (cost <= dearest ? 1 : 0), 0));
    // Where the limit leaves hardly more than these few, all of them are searched at once.
    if (sumOf(left) <= FEW_MORE * sumOf(few.map(({ length }) => length))) break;
    const { ways } = yield* within(progression, few, dearest, count, mostWork);
    if (ways.length === count) dearest = Math.min(dearest, Math.max(...ways.map(({ cost }) => cost)));
  }
  const first = dearest === Number.POSITIVE_INFINITY ? FIRST_SLACK : dearest - least;
  for (let slack = first; ; slack = (slack + 1) * GROWTH) {
    const all = through.map((costs) => everyPlace(costs).filter((choice) => (costs[choice] ?? 0) <= least + slack));
    const whole = all.every((choices, chord) => choices.length === own[chord]?.length);
    const limit = whole && slack > dearest - least ? Number.POSITIVE_INFINITY : least + slack;
    const found = yield* within(progression, all, limit, count, mostWork);
    if (found.ways.length >= count || !found.settled || limit === Number.POSITIVE_INFINITY) return found;
    if (dearest === Number.POSITIVE_INFINITY && whole) return yield* within(progression, all, dearest, count, mostWork);
  }
}

/** From so many pairs of neighbouring choices on it saves time to sift them before the best way is sought. Unit: pairs; measured. */
const PAIRS_WORTH_SIFTING = 3000;

function pairsIn({ chordOf }: Steps, domains: readonly Int32Array[]): number {
  return chordOf.reduce(
    (sum, chord, step) =>
      step === 0 ? 0 : sum + choicesIn(domains, chordOf[step - 1] ?? 0).length * choicesIn(domains, chord).length,
    0,
  );
}

function sumOf(numbers: readonly number[]): number {
  return numbers.reduce((sum, number) => sum + number, 0);
}

/** The few choices that promise most. */
function cheapest(costs: Float64Array, size: number): Int32Array {
  return everyPlace(costs)
    .sort((one, other) => (costs[one] ?? 0) - (costs[other] ?? 0))
    .slice(0, size);
}

function everyPlace(costs: Float64Array): Int32Array {
  return Int32Array.from(costs.keys());
}

/** By chord and choice, what every way costs at least that takes it. */
function* leastThrough({ own, chordOf }: ProgressionInNumbers, steps: Steps): InSteps<readonly Float64Array[]> {
  const through = yield* costsThroughInSteps(steps, own.map(everyPlace));
  return own.map((costs, chord) =>
    costs.map((_, choice) =>
      chordOf.reduce((most, other, step) => (other === chord ? Math.max(most, through[step]?.[choice] ?? 0) : most), 0),
    ),
  );
}

/** The search among some choices, for ways that cost no more than the limit. */
function* within(
  progression: ProgressionInNumbers,
  some: readonly Int32Array[],
  limit: number,
  count: number,
  mostWork: number,
): InSteps<BestWays> {
  yield;
  const whole = yield* stepsOf(progression, some, progression.between);
  const left = yield* withoutDearer(
    whole,
    some.map((choices) => Int32Array.from(choices.keys())),
    limit,
  );
  yield;
  const steps = yield* onlyWith(whole, left);
  const all = left.map((places, chord) => places.map((place) => choicesIn(some, chord)[place] ?? 0));
  const start = all.map((choices) => Int32Array.from(choices.keys()));
  const alike = (chord: number, one: number, other: number) =>
    progression.alike(chord, choicesIn(all, chord)[one] ?? 0, choicesIn(all, chord)[other] ?? 0);
  const excludes: ProgressionInNumbers['excludes'] = (chord, choice, other, otherChoice) =>
    progression.excludes(chord, choicesIn(all, chord)[choice] ?? 0, other, choicesIn(all, other)[otherChoice] ?? 0);
  const ahead = limit === Number.POSITIVE_INFINITY ? undefined : yield* leastAhead(steps, start);
  const bestIn = relaxedWays(steps, ahead, limit);
  const queue: Node[] = [];
  let made = 0;
  const add = function* (domains: readonly Int32Array[]): InSteps<undefined> {
    const few = pairsIn(steps, domains) > PAIRS_WORTH_SIFTING ? yield* withoutDearer(steps, domains, limit) : domains;
    const way = bestIn(few);
    if (way !== undefined) push(queue, { domains: few, way, age: made });
    made += 1;
    return undefined;
  };
  const taken: (readonly number[])[] = [];
  const ways: HeldWay[] = [];
  const told = (choices: readonly number[], cost: number) =>
    ways.push({ choices: choices.map((choice, chord) => choicesIn(all, chord)[choice] ?? 0), cost });
  yield* add(start);
  for (let node = pop(queue); node !== undefined; node = pop(queue)) {
    yield;
    if (made > mostWork) {
      if (ways.length === 0) {
        const { choices, cost } = heldAsFirst(steps, node);
        told(choices, cost);
      }
      return { ways, settled: false };
    }
    const changing = chordThatChanges(steps, node.way);
    if (changing !== undefined) {
      for (const choices of divided(steps, node, changing)) yield* add(withChoices(node.domains, changing, choices));
      continue;
    }
    const choices = choicesByChord(steps, node.way);
    const excluded = excludedPair(choices, excludes);
    if (excluded !== undefined) {
      const [one, other] = excluded;
      const first = choicesIn(node.domains, one);
      yield* add(
        withChoices(
          node.domains,
          one,
          first.filter((choice) => choice !== choices[one]),
        ),
      );
      const only = withChoices(node.domains, one, Int32Array.of(choices[one] ?? 0));
      const beside = choicesIn(node.domains, other);
      yield* add(
        withChoices(
          only,
          other,
          beside.filter((choice) => !excludes(one, choices[one] ?? 0, other, choice)),
        ),
      );
      continue;
    }
    const like = taken.find((one) => differing(one, choices, alike) < progression.leastDifferent);
    if (like === undefined) {
      taken.push(choices);
      told(choices, node.way.cost);
      if (ways.length === count) break;
      push(queue, node);
      continue;
    }
    const chord = chordToDiffer(node, like, choices, alike, progression.leastDifferent);
    if (chord === undefined) continue;
    const other = choicesIn(node.domains, chord).filter((choice) => !alike(chord, like[chord] ?? 0, choice));
    const same = choicesIn(node.domains, chord).filter((choice) => alike(chord, like[chord] ?? 0, choice));
    yield* add(withChoices(node.domains, chord, other));
    // What was best among all is best among these too, because it is one of them.
    push(queue, { ...node, domains: withChoices(node.domains, chord, same) });
  }
  return { ways, settled: true };
}

/** The chord that is not held the same at all its places, the first of them; nothing where all are. */
function chordThatChanges({ chordOf }: Steps, { picks }: Way): number | undefined {
  return chordOf.find((chord, step) => picks[chordOf.indexOf(chord)] !== picks[step]);
}

/** The choices of the chord that changes: each that was taken alone, and all others together. */
function divided({ chordOf }: Steps, { way, domains }: Node, chord: number): readonly Int32Array[] {
  const taken = [...new Set(way.picks.filter((_, step) => chordOf[step] === chord))];
  const rest = choicesIn(domains, chord).filter((choice) => !taken.includes(choice));
  return [...taken.map((choice) => Int32Array.of(choice)), ...(rest.length === 0 ? [] : [rest])];
}

function withChoices(domains: readonly Int32Array[], chord: number, choices: Int32Array): readonly Int32Array[] {
  return domains.map((domain, at) => (at === chord ? choices : domain));
}

/** By chord, what it is held in at its first place. */
function choicesByChord({ chordOf }: Steps, { picks }: Way): readonly number[] {
  const chords = Math.max(...chordOf) + 1;
  return Array.from({ length: chords }, (_, chord) => picks[chordOf.indexOf(chord)] ?? 0);
}

/** Two chords that cannot be held so at once, the first such pair. */
function excludedPair(
  choices: readonly number[],
  excludes: ProgressionInNumbers['excludes'],
): readonly [number, number] | undefined {
  for (const [other, otherChoice] of choices.entries()) {
    for (let one = 0; one < other; one += 1) {
      if (excludes(one, choices[one] ?? 0, other, otherChoice)) return [one, other];
    }
  }
  return undefined;
}

function differing(one: readonly number[], other: readonly number[], alike: ProgressionInNumbers['alike']): number {
  return one.reduce((sum, choice, chord) => sum + (alike(chord, choice, other[chord] ?? 0) ? 0 : 1), 0);
}

/**
 * The chord by which to divide what is too like a way already taken: one that could differ and does not, the first of them. Nothing
 * where too few chords can differ.
 */
function chordToDiffer(
  { domains }: Node,
  like: readonly number[],
  choices: readonly number[],
  alike: ProgressionInNumbers['alike'],
  leastDifferent: number,
): number | undefined {
  const canDiffer = like.map((choice, chord) => choicesIn(domains, chord).some((one) => !alike(chord, choice, one)));
  if (canDiffer.filter(Boolean).length < leastDifferent) return undefined;
  const chord = like.findIndex((choice, at) => canDiffer[at] === true && alike(at, choice, choices[at] ?? 0));
  return chord < 0 ? undefined : chord;
}

/** Where there is no time for better: each chord as at its first place. */
function heldAsFirst(steps: Steps, { way }: Node): HeldWay {
  const choices = choicesByChord(steps, way);
  const only = choices.map((choice) => Int32Array.of(choice));
  return { choices, cost: relaxedWay(steps, only)?.cost ?? way.cost };
}
