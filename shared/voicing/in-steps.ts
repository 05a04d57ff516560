/**
 * Work that takes long, cut into steps of a few milliseconds each, so that whoever does it can let other things come between. It says
 * nothing until it is done.
 */
export type InSteps<T> = Generator<undefined, T, undefined>;

/** The same work done without a stop. */
export function atOnce<T>(work: InSteps<T>): T {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
}
