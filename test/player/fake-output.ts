import type { Ordered, Output, Sounding, Timing } from '../../client/player/output.ts';

/** A sound as it came to be, after everything that was said of it later. */
export interface Made {
  readonly at: number;
  readonly string?: number;
  readonly key: string;
  readonly loudness: number;
  readonly end: number | undefined;
}

/** Stands in for the browser's sound: a clock that the test moves, and a list of what was ordered. No sample is made. */
export class FakeOutput implements Output {
  time = 0;
  /** How far what is heard lies behind what is made. Unit: s. */
  latency = 0.04;
  readonly #made: { ordered: Ordered; end: number | undefined; gone: boolean }[] = [];

  now(): number {
    return this.time;
  }

  heard(): number {
    return this.time - this.latency;
  }

  running(): boolean {
    return true;
  }

  wake(): void {}

  prepare(): void {}

  order(ordered: Ordered): Sounding {
    if (ordered.at < this.time - 1e-9)
      throw new Error(`${ordered.recipe.key} was ordered ${this.time - ordered.at} s too late`);
    const made = { ordered, end: ordered.end, gone: false };
    if (ordered.string !== undefined) {
      const before = this.#made.findLast(({ ordered: { string }, gone }) => string === ordered.string && !gone);
      if (before !== undefined && (before.end === undefined || before.end > ordered.at)) before.end = ordered.at;
    }
    this.#made.push(made);
    return {
      at: ordered.at,
      endAt: (time) => {
        made.end = time;
      },
    };
  }

  takeBack(from: number): void {
    for (const made of this.#made) if (made.ordered.at >= from) made.gone = true;
  }

  hush(at: number): void {
    for (const made of this.#made) {
      if (made.ordered.at > at) made.gone = true;
      else if (made.end === undefined || made.end > at) made.end = at;
    }
  }

  /** All that is or will be heard, in order. */
  get made(): readonly Made[] {
    return this.#made
      .filter(({ gone }) => !gone)
      .map(({ ordered: { at, string, recipe, loudness }, end }) => ({
        at,
        key: recipe.key,
        loudness,
        end,
        ...(string === undefined ? {} : { string }),
      }))
      .sort((a, b) => a.at - b.at);
  }
}

/** Timers that run when the test says so: pictures sixty times a second, and what is called every so often in between. */
export class FakeTiming implements Timing {
  readonly #every = new Set<() => void>();
  readonly #frames = new Set<() => void>();

  every(_milliseconds: number, work: () => void): () => void {
    this.#every.add(work);
    return () => this.#every.delete(work);
  }

  eachFrame(work: () => void): () => void {
    this.#frames.add(work);
    return () => this.#frames.delete(work);
  }

  lookahead(): number {
    return 0.2;
  }

  /** Lets time pass. `rate`: how fast the clock of the sound runs against that of the screen. */
  pass(output: FakeOutput, seconds: number, rate = 1): void {
    const frames = Math.round(seconds * 60);
    for (let frame = 0; frame < frames; frame += 1) {
      output.time += rate / 60;
      for (const work of [...this.#every]) work();
      for (const work of [...this.#frames]) work();
    }
  }
}
