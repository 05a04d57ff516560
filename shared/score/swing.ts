import type { Feel } from '../lesson/syntax/words.ts';
import type { Meter } from '../theory/meter.ts';
import { compare, minus, over, plus, type Rational, rational, times } from '../theory/rational.ts';

/**
 * When a written moment is played, where notes are written even and played long and short. Both from the start of the bar, in whole
 * notes.
 *
 * The first of a pair lasts `long` parts of `long + short`; what is written between is moved in proportion. Thirds, fifths and the
 * like are played as written: a written triplet is already what swing makes of two. Eighths swing in meters of quarters and halves,
 * sixteenths also in those of eighths; where the foot beats three, eighths are no pairs and stay even.
 * Source: common practice, no source, for what is left alone; two to one as first and third of a triplet as in the general article
 * on swung notes, from memory.
 */
export function playedAt(feel: Feel, meter: Meter, written: Rational): Rational {
  if (feel.kind === 'straight' || meter.unit >= feel.unit || !isPowerOfTwo(written.denominator)) return written;
  const pair = rational(2, feel.unit);
  const pairs = over(written, pair);
  const start = times(pair, rational(Math.floor(pairs.numerator / pairs.denominator)));
  const into = minus(written, start);
  const half = rational(1, feel.unit);
  const long = times(pair, rational(feel.long, feel.long + feel.short));
  if (compare(into, half) <= 0) return plus(start, times(into, over(long, half)));
  const short = minus(pair, long);
  return plus(plus(start, long), times(minus(into, half), over(short, half)));
}

function isPowerOfTwo(number: number): boolean {
  return Number.isInteger(Math.log2(number));
}
