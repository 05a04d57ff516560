import type { Scope } from './scope.ts';

/**
 * A question to a scope. Everybody who asks the same holds the same question, so that it is answered once for each state of the
 * lesson, however many entries depend on it.
 */
export class Question {
  readonly #ask: (scope: Scope) => unknown;
  #version: number | undefined;
  #answer: unknown;

  constructor(ask: (scope: Scope) => unknown) {
    this.#ask = ask;
  }

  /** What the scope answers; asked anew only where it is another state of the lesson than the last one asked. */
  answerOf(scope: Scope): unknown {
    const { version } = scope;
    if (version === undefined) return this.#ask(scope);
    if (this.#version !== version) {
      this.#answer = this.#ask(scope);
      this.#version = version;
    }
    return this.#answer;
  }
}

/** Finds the question of a name about a text, or about a statement; `ask` is what it is made of where nobody has asked it yet. */
export interface Questions {
  find(name: string, about: string | object, ask: (scope: Scope) => unknown): Question;
}

/** More than a long lesson asks; beyond it the texts start again, so that names no longer used do not stay. */
const MOST_ABOUT_TEXTS = 20_000;

export function createQuestions(): Questions {
  const aboutTexts = new Map<string, Map<string, Question>>();
  const aboutStatements = new WeakMap<object, Map<string, Question>>();
  let count = 0;
  return {
    find(name, about, ask) {
      // Texts by their question, as a few names are asked of many; statements by themselves, as they come and go.
      const isText = typeof about === 'string';
      const table = isText ? tableIn(aboutTexts, name) : tableIn(aboutStatements, about);
      const key = isText ? about : name;
      const known = table.get(key);
      if (known !== undefined) return known;
      if (isText && count++ > MOST_ABOUT_TEXTS) {
        aboutTexts.clear();
        count = 0;
      }
      const question = new Question(ask);
      table.set(key, question);
      return question;
    },
  };
}

function tableIn<K extends string | object>(
  tables: { get(key: K): Map<string, Question> | undefined; set(key: K, table: Map<string, Question>): unknown },
  key: K,
): Map<string, Question> {
  const known = tables.get(key);
  if (known !== undefined) return known;
  const table = new Map<string, Question>();
  tables.set(key, table);
  return table;
}
