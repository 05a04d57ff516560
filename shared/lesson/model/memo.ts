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
      const value = compute(recording(scope, { reads, answers: new Map(), editions: new Set() }));
      const others = known.filter((item) => item.variant !== variant).slice(0, VARIANTS_KEPT - 1);
      kept.set(entry, [{ variant, reads, value }, ...others]);
      return value;
    },
  };
}

/** What a question to an edition that is no longer there is answered with; no scope ever answers so. */
const GONE = Symbol('an edition that is gone');

/** What is written down: each question once, under its name, or under the statement that it is about. */
interface Notes {
  readonly reads: Read[];
  readonly answers: Map<string | object, Map<string, unknown>>;
  /** The paths of the editions that were asked who they are: the most frequent question. */
  readonly editions: Set<string>;
}

/** The edition that was asked, found from the scope that the reads are asked of later; `path` tells it from others. */
interface Place {
  readonly path: string;
  readonly find: (root: Scope) => Scope | undefined;
}

const ROOT: Place = { path: '', find: (root) => root };

/** The same scope, writing down what is asked of it. */
function recording(scope: Scope, notes: Notes, { path, find }: Place = ROOT): Scope {
  const noted = <T>(name: string, about: string | object, ask: (scope: Scope) => T): T => {
    const question = `${path}${name}`;
    const known = notes.answers.get(about) ?? new Map<string, unknown>();
    notes.answers.set(about, known);
    // The answers of a scope stay the same as long as it lives.
    if (known.has(question)) return known.get(question) as T;
    const answer = ask(scope);
    known.set(question, answer);
    const askAgain = (root: Scope): unknown => {
      const asked = find(root);
      return asked === undefined ? GONE : ask(asked);
    };
    notes.reads.push({ ask: path === '' ? ask : askAgain, answer });
    return answer;
  };
  return {
    edition: () => {
      if (notes.editions.has(path)) return scope.edition();
      notes.editions.add(path);
      // The edition is made anew with every document; what it says is compared instead.
      noted('edition name', '', (asked) => asked.edition().name);
      noted('edition keeps', '', (asked) => asked.edition().keeps);
      noted('edition instrument', '', (asked) => asked.edition().instrument);
      noted('edition key', '', (asked) => asked.edition().key);
      return scope.edition();
    },
    ownInstrument: () => noted('own instrument', '', (asked) => asked.ownInstrument()),
    chord: (text) => noted('chord', text, (asked) => asked.chord(text)),
    progression: (name) => noted('progression', name, (asked) => asked.progression(name)),
    grid: (kind, name) => noted(kind, name, (asked) => asked.grid(kind, name)),
    family: (name) => noted('family', name, (asked) => asked.family(name)),
    knows: (kind, name) => noted(`knows ${kind}`, name, (asked) => asked.knows(kind, name)),
    isUnread: (name) => noted('unread', name, (asked) => asked.isUnread(name)),
    setting: (name) => noted('setting', name, (asked) => asked.setting(name)),
    names: (kind) => noted('names', kind, (asked) => asked.names(kind)),
    neighbour: (text, side) => noted(side, text, (asked) => asked.neighbour(text, side)),
    chosenFingering: (text) => noted('chosen fingering', text, (asked) => asked.chosenFingering(text)),
    timed: (statement) => noted('timed', statement, (asked) => asked.timed(statement)),
    movedShape: (text) => noted('moved shape', text, (asked) => asked.movedShape(text)),
    fingered: (statement) => noted('fingered', statement, (asked) => asked.fingered(statement)),
    firstPlayedIn: (name) => noted('first played in', name, (asked) => asked.firstPlayedIn(name)),
    exercises: () => {
      // Lists are made anew with every document; what they hold is compared instead.
      const count = noted('exercises', '', (asked) => asked.exercises().length);
      return Array.from({ length: count }, (_, at) =>
        noted('exercise', String(at), (asked) => asked.exercises()[at]),
      ).flatMap((one) => one ?? []);
    },
    editions: () => {
      noted('editions', '', (asked) => asked.editions().length);
      return scope
        .editions()
        .map((edition, at) =>
          recording(edition, notes, { path: `${path}${at} `, find: (root) => find(root)?.editions()[at] }),
        );
    },
    entryOf: (statement) => noted('entry', statement, (asked) => asked.entryOf(statement)),
  };
}
