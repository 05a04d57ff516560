/**
 * Answers by what was asked, so that nothing is worked out twice. Beyond `most` answers it starts again, so that it cannot grow without
 * end: `most` is more than a long lesson asks for.
 */
export class Remembered<K, V> {
  readonly #most: number;
  readonly #answers = new Map<K, V>();

  constructor(most: number) {
    this.#most = most;
  }

  /** The answer to a question; `work` finds it where nobody asked before. */
  get(question: K, work: () => V): V {
    const known = this.#answers.get(question);
    if (known !== undefined || this.#answers.has(question)) return known as V;
    const answer = work();
    if (this.#answers.size >= this.#most) this.#answers.clear();
    this.#answers.set(question, answer);
    return answer;
  }
}
