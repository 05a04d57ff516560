import { type Answer, type Answers, answerInSteps } from '../shared/lesson/asked/answer.ts';
import type { Question } from '../shared/lesson/asked/question.ts';
import type { InSteps } from '../shared/voicing/in-steps.ts';
import { guarded, type Log } from './guard.ts';
import type { Soon } from './turn.ts';

/** So long a slice of the work may take before waiting messages come in: a quarter of a frame of a 60 Hz screen. Unit: ms. */
const SLICE_MS = 4;

/** Answers that are kept; the oldest goes first. Going back and forth between a few forms of a question finds each of them. */
const MOST_KEPT = 60;

/**
 * The answers to what lessons ask, kept by what is asked. One that is not known is worked out between the messages of the editor, in
 * slices, as long as somebody wants it.
 */
export class KeptAnswers implements Answers {
  readonly #log: Log;
  readonly #soon: Soon;
  readonly #known = new Map<string, Answer>();
  /** By who wants them. */
  readonly #wanted = new Map<string, readonly Question[]>();
  readonly #awaited = new Map<string, (answer: Answer | undefined) => void>();
  #work: { readonly question: Question; readonly steps: InSteps<Answer> } | undefined;
  #waiting = false;
  #asked = 0;
  #told: (question: Question) => void = () => undefined;

  constructor(log: Log, soon: Soon) {
    this.#log = log;
    this.#soon = soon;
  }

  /** Calls with each question that has been answered, from then on. */
  onAnswer(tell: (question: Question) => void): void {
    this.#told = tell;
  }

  get(question: Question): Answer | undefined {
    return this.#known.get(question.key);
  }

  /** What somebody wants to know from now on, in place of what they wanted before. */
  want(who: string, questions: readonly Question[]): void {
    if (questions.length === 0) this.#wanted.delete(who);
    else this.#wanted.set(who, questions);
    this.#goOn();
  }

  /** The answer, once it is known; nothing when it is not wanted any more. */
  answerTo(question: Question, stop?: (stopped: () => void) => void): Promise<Answer | undefined> {
    const known = this.get(question);
    if (known !== undefined) return Promise.resolve(known);
    this.#asked += 1;
    const who = `question ${this.#asked}`;
    return new Promise((resolve) => {
      const end = (answer: Answer | undefined): void => {
        this.#awaited.delete(who);
        this.want(who, []);
        resolve(answer);
      };
      this.#awaited.set(who, end);
      stop?.(() => end(undefined));
      this.want(who, [question]);
    });
  }

  #goOn(): void {
    if (this.#waiting || this.#next() === undefined) return;
    this.#waiting = true;
    this.#soon(() => {
      this.#waiting = false;
      this.#slice();
      this.#goOn();
    });
  }

  #next(): Question | undefined {
    const all = [...this.#wanted.values()].flat();
    // What was begun is ended first, where it is still wanted.
    const begun = this.#work?.question.key;
    return all.find(({ key }) => key === begun) ?? all.find((question) => this.get(question) === undefined);
  }

  #slice(): void {
    const question = this.#next();
    if (question === undefined) {
      this.#work = undefined;
      return;
    }
    if (this.#work?.question.key !== question.key) this.#work = { question, steps: answerInSteps(question) };
    const { steps } = this.#work;
    const until = performance.now() + SLICE_MS;
    const found = guarded(this.#log, 'looking for what a lesson asks', {}, faultOf(question), () => {
      for (;;) {
        const step = steps.next();
        if (step.done === true) return step.value;
        if (performance.now() >= until) return undefined;
      }
    });
    if (found !== undefined) this.#keep(question, found);
  }

  #keep(question: Question, answer: Answer): void {
    this.#work = undefined;
    this.#known.set(question.key, answer);
    for (const oldest of this.#known.keys()) {
      if (this.#known.size <= MOST_KEPT) break;
      this.#known.delete(oldest);
    }
    const has = ({ key }: Question): boolean => key === question.key;
    for (const [who, questions] of this.#wanted) {
      if (!questions.some(has)) continue;
      this.#wanted.set(
        who,
        questions.filter((one) => !has(one)),
      );
      this.#awaited.get(who)?.(answer);
    }
    this.#told(question);
  }
}

/** In place of an answer, where finding it failed by a fault of ours: it must not be tried for ever. */
function faultOf({ kind }: Question): Answer {
  const message = 'This could not be worked out, by a fault of this program. Another form of the question may do.';
  return kind === 'family'
    ? { kind, found: { kind: 'none', reasons: [message] } }
    : { kind, found: { ok: false, message } };
}
