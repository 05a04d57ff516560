import { Remembered } from '../../text/remembered.ts';
import type { Entry } from '../syntax/read-entry.ts';
import { createQuestions, type Question, type Questions } from './questions.ts';
import type { Scope } from './scope.ts';

interface Kept<T> {
  readonly variant: string;
  /** What was asked, and the answers that it got, in the same order. */
  readonly questions: readonly Question[];
  readonly answers: readonly unknown[];
  readonly value: T;
  /** The last state of the lesson that was found to give these answers. */
  version: number | undefined;
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
      const before = known.find((item) => item.variant === variant);
      if (before !== undefined && isStillTrue(before, scope)) return before.value;
      const notes = { scope, questions: questionsOf(scope), answers: new Map(), editions: new Set<string>() };
      const value = compute(recording(scope, notes));
      const { answers } = notes;
      const now = {
        variant,
        questions: [...answers.keys()],
        answers: [...answers.values()],
        value,
        version: scope.version,
      };
      const others = known.filter((item) => item !== before).slice(0, VARIANTS_KEPT - 1);
      kept.set(entry, [now, ...others]);
      return value;
    },
  };
}

function isStillTrue(kept: Kept<unknown>, scope: Scope): boolean {
  const { version } = scope;
  if (version !== undefined && kept.version === version) return true;
  const { questions, answers } = kept;
  for (let at = 0; at < questions.length; at++) {
    if (!Object.is(questions[at]?.answerOf(scope), answers[at])) return false;
  }
  kept.version = version;
  return true;
}

/** By the name of the edition that is asked: more than the lessons that are open at a time have. */
const shared = new Remembered<string, Questions>(50);

/**
 * The questions that all entries share; those to a scope that is not a state of a lesson are its asker's own. Editions take turns in
 * being asked, so each has its own as well.
 */
function questionsOf(scope: Scope): Questions {
  if (scope.version === undefined) return createQuestions();
  return shared.get(scope.edition().name, createQuestions);
}

/** What a question to an edition that is no longer there is answered with; no scope ever answers so. */
const GONE = Symbol('an edition that is gone');

/** What is written down: each question once, with its answer. */
interface Notes {
  /** The scope that all questions go to. */
  readonly scope: Scope;
  readonly questions: Questions;
  readonly answers: Map<Question, unknown>;
  /** The paths of the editions that were asked who they are: the most frequent question. */
  readonly editions: Set<string>;
}

/** The edition that was asked, found from the scope that the reads are asked of later; `path` tells it from others. */
interface Place {
  readonly path: string;
  readonly find: (root: Scope) => Scope | undefined;
}

const ROOT: Place = { path: '', find: (root) => root };

function askThere(root: Scope, { find }: Place, ask: (scope: Scope) => unknown): unknown {
  const asked = find(root);
  return asked === undefined ? GONE : ask(asked);
}

/** The same scope, writing down what is asked of it. */
function recording(scope: Scope, notes: Notes, place: Place = ROOT): Scope {
  const { path, find } = place;
  const noted = <T>(name: string, about: string | object, ask: (scope: Scope) => T): T => {
    const { answers, questions } = notes;
    const question = questions.find(`${path}${name}`, about, path === '' ? ask : (root) => askThere(root, place, ask));
    // The answers of a scope stay the same as long as it lives.
    if (answers.has(question)) return answers.get(question) as T;
    const answer = question.answerOf(notes.scope);
    answers.set(question, answer);
    return answer as T;
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
    resolved: (text) => noted('resolved', text, (asked) => asked.resolved(text)),
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
    difficulty: () => noted('difficulty', '', (asked) => asked.difficulty()),
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
