import type { Entry } from '../syntax/read-entry.ts';
import type { Scope } from './scope.ts';

/** One question that was asked, and the answer that it got. */
interface Read {
  readonly ask: (scope: Scope) => unknown;
  readonly answer: unknown;
}

interface Kept<T> {
  readonly variant: string;
  readonly reads: readonly Read[];
  readonly value: T;
}

/**
 * What was computed for an entry, kept as long as the entry is the same and every question that the computation asked still
 * gets the same answer. So an edit costs one comparison for each answer read, and new work only where an answer changed.
 */
export interface Memo<T> {
  /** `variant` names whatever else the value depends on, such as the width it is laid out for. */
  get(entry: Entry, scope: Scope, variant: string, compute: (scope: Scope) => T): T;
}

/** How many variants of one entry are kept: a few editions in a few widths, or the paragraphs under an exercise. */
const VARIANTS_KEPT = 24;

export function createMemo<T>(): Memo<T> {
  // Entries are values that never change, so whatever was read from one may live as long as it does.
  const kept = new WeakMap<Entry, readonly Kept<T>[]>();
  return {
    get(entry, scope, variant, compute) {
      const known = kept.get(entry) ?? [];
      const match = known.find(
        (item) => item.variant === variant && item.reads.every((read) => Object.is(read.ask(scope), read.answer)),
      );
      if (match !== undefined) return match.value;
      const reads: Read[] = [];
      const value = compute(recording(scope, reads));
      const others = known.filter((item) => item.variant !== variant).slice(0, VARIANTS_KEPT - 1);
      kept.set(entry, [{ variant, reads, value }, ...others]);
      return value;
    },
  };
}

/** What a question to an edition that is no longer there is answered with; no scope ever answers so. */
const GONE = Symbol('an edition that is gone');

/** The same scope, writing down what is asked of it. `within` finds it from the scope that the reads are asked of later. */
function recording(scope: Scope, reads: Read[], within: (root: Scope) => Scope | undefined = (root) => root): Scope {
  const noted = <T>(ask: (scope: Scope) => T): T => {
    const answer = ask(scope);
    const askAgain = (root: Scope): unknown => {
      const asked = within(root);
      return asked === undefined ? GONE : ask(asked);
    };
    reads.push({ ask: askAgain, answer });
    return answer;
  };
  return {
    edition: () => {
      // The edition is made anew with every document; what it says is compared instead.
      noted((asked) => asked.edition().name);
      noted((asked) => asked.edition().keeps);
      noted((asked) => asked.edition().instrument);
      return scope.edition();
    },
    ownInstrument: () => noted((asked) => asked.ownInstrument()),
    chord: (text) => noted((asked) => asked.chord(text)),
    progression: (name) => noted((asked) => asked.progression(name)),
    grid: (kind, name) => noted((asked) => asked.grid(kind, name)),
    family: (name) => noted((asked) => asked.family(name)),
    knows: (kind, name) => noted((asked) => asked.knows(kind, name)),
    setting: (name) => noted((asked) => asked.setting(name)),
    names: (kind) => noted((asked) => asked.names(kind)),
    neighbour: (text, side) => noted((asked) => asked.neighbour(text, side)),
    progressionWith: (text) => noted((asked) => asked.progressionWith(text)),
    chosenFingering: (text) => noted((asked) => asked.chosenFingering(text)),
    exercises: () => {
      // Lists are made anew with every document; what they hold is compared instead.
      const count = noted((asked) => asked.exercises().length);
      return Array.from({ length: count }, (_, at) => noted((asked) => asked.exercises()[at])).flatMap(
        (one) => one ?? [],
      );
    },
    editions: () => {
      noted((asked) => asked.editions().length);
      return scope.editions().map((edition, at) => recording(edition, reads, (root) => within(root)?.editions()[at]));
    },
    entryOf: (statement) => noted((asked) => asked.entryOf(statement)),
  };
}
