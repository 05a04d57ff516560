import { minus, plus, type Rational, ZERO } from '../../theory/rational.ts';
import type { OrderedBar } from './played-order.ts';

/** Bars that follow each other without a leap. */
export interface Passage {
  readonly from: Rational;
  readonly to: Rational;
  /** How much later the patterns seem to have begun: a later ending comes from where the first one came, so it goes on as that did. */
  readonly shift: Rational;
}

/** The passages of bars in the order of the text: each later ending begins one. `total` is the end of the last bar. */
export function passagesOf(
  frames: readonly Pick<OrderedBar, 'ending'>[],
  starts: readonly Rational[],
  total: Rational,
): readonly Passage[] {
  const passages: Passage[] = [];
  let from: Rational = ZERO;
  let shift: Rational = ZERO;
  // Where the first ending of the repeat at hand begins, and the shift that holds there.
  let first = { start: ZERO, shift: ZERO };
  frames.forEach(({ ending }, index) => {
    const start = starts[index] ?? ZERO;
    if (ending?.begins !== true) return;
    if (frames[index - 1]?.ending === undefined || ending.numbers.includes(1)) {
      first = { start, shift };
      return;
    }
    passages.push({ from, to: start, shift });
    from = start;
    shift = plus(first.shift, minus(start, first.start));
  });
  return [...passages, { from, to: total, shift }];
}
