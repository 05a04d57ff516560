import type { InSteps } from '../in-steps.ts';
import { costsThroughInSteps, type Steps } from './relaxed-way.ts';

/** A progression in numbers: each chord has choices, each choice costs something by itself and beside its neighbours. */
export interface ProgressionInNumbers {
  /** By step: which chord it is. No two neighbouring steps are the same chord. */
  readonly chordOf: readonly number[];
  /** By step: how often its chord comes in a row there, 1 or more. */
  readonly times: readonly number[];
  /** By chord: what each choice costs by itself, each time. Whole numbers, nothing or more. */
  readonly own: readonly Float64Array[];
  /** What neighbours cost, and which way along the neck it goes from one to the other. Whole numbers, nothing or more. */
  readonly between: (from: ChordChoices, to: ChordChoices) => InSteps<Neighbours>;
  /** The same for all choices of two chords, never more, in a fraction of the time: what is hopeless is known by it beforehand. */
  readonly leastBetween: (fromChord: number, toChord: number) => InSteps<Neighbours>;
  /** What it costs to turn round. */
  readonly turn: number;
  /** True for two choices of a chord that a reader would take for one. */
  readonly alike: (chord: number, one: number, other: number) => boolean;
  /** True where two different chords cannot be held so at once: they would be one shape with two names. */
  readonly excludes: (chord: number, choice: number, other: number, otherChoice: number) => boolean;
  /** Ways are different when they are not alike in at least so many chords, 1 or more. */
  readonly leastDifferent: number;
}

export interface ChordChoices {
  readonly chord: number;
  readonly choices: Int32Array;
}

/** At `from * choices of the other + to`: the cost, and 1 where it goes up the neck, −1 down, 0 where it stays. */
export interface Neighbours {
  readonly cost: Int32Array;
  readonly direction: Int8Array;
}

/** The steps of a progression in which only these choices are left; they are counted anew. */
export function* stepsOf(
  { chordOf, times, own, turn }: ProgressionInNumbers,
  all: readonly Int32Array[],
  between: ProgressionInNumbers['between'],
): InSteps<Steps> {
  const known = new Map<string, Neighbours>();
  const neighbours: (Neighbours | undefined)[] = [undefined];
  for (const [step, chord] of chordOf.entries()) {
    const before = chordOf[step - 1];
    if (before === undefined) continue;
    const pair = `${before} ${chord}`;
    let made = known.get(pair);
    if (made === undefined) {
      yield;
      const from = { chord: before, choices: choicesIn(all, before) };
      made = yield* between(from, { chord, choices: choicesIn(all, chord) });
    }
    known.set(pair, made);
    neighbours.push(made);
  }
  return {
    chordOf,
    own: chordOf.map((chord, step) =>
      Float64Array.from(choicesIn(all, chord), (choice) => (own[chord]?.[choice] ?? 0) * (times[step] ?? 1)),
    ),
    ways: neighbours.map((made) => made?.cost),
    directions: neighbours.map((made) => made?.direction),
    turn,
  };
}

export function choicesIn(all: readonly Int32Array[], chord: number): Int32Array {
  return all[chord] ?? new Int32Array();
}

/** Without the choices through which every way costs more than the limit. Cut into steps. */
export function* withoutDearer(
  steps: Steps,
  domains: readonly Int32Array[],
  limit: number,
): InSteps<readonly Int32Array[]> {
  if (limit === Number.POSITIVE_INFINITY) return domains;
  const through = yield* costsThroughInSteps(steps, domains);
  return domains.map((choices, chord) =>
    choices.filter((choice) =>
      steps.chordOf.every((other, step) => other !== chord || (through[step]?.[choice] ?? 0) <= limit),
    ),
  );
}

/** The steps with these of their choices alone, which are counted anew. Cut into steps. */
export function* onlyWith(steps: Steps, left: readonly Int32Array[]): InSteps<Steps> {
  const { chordOf, own, ways, directions } = steps;
  const known = new Map<Int32Array, Neighbours>();
  const neighbours: (Neighbours | undefined)[] = [];
  for (const [step, chord] of chordOf.entries()) {
    const [cost, direction] = [ways[step], directions[step]];
    if (cost === undefined || direction === undefined) {
      neighbours.push(undefined);
      continue;
    }
    let made = known.get(cost);
    if (made === undefined) {
      yield;
      const from = choicesIn(left, chordOf[step - 1] ?? 0);
      made = onlyBetween({ cost, direction }, from, choicesIn(left, chord), own[step]?.length ?? 0);
    }
    known.set(cost, made);
    neighbours.push(made);
  }
  return {
    ...steps,
    own: own.map((costs, step) =>
      Float64Array.from(choicesIn(left, chordOf[step] ?? 0), (choice) => costs[choice] ?? 0),
    ),
    ways: neighbours.map((made) => made?.cost),
    directions: neighbours.map((made) => made?.direction),
  };
}

function onlyBetween({ cost, direction }: Neighbours, from: Int32Array, to: Int32Array, width: number): Neighbours {
  const left = { cost: new Int32Array(from.length * to.length), direction: new Int8Array(from.length * to.length) };
  let at = 0;
  for (const one of from) {
    for (const other of to) {
      left.cost[at] = cost[one * width + other] ?? 0;
      left.direction[at] = direction[one * width + other] ?? 0;
      at += 1;
    }
  }
  return left;
}
