import { beatLength, type Meter } from '../../theory/meter.ts';
import { over, type Rational, toNumber } from '../../theory/rational.ts';

const PARTS: Readonly<Record<string, string>> = { '1/2': '½', '1/3': '⅓', '2/3': '⅔', '1/4': '¼', '3/4': '¾' };
const PARTS_ALONE: Readonly<Record<string, string>> = {
  '1/2': 'half a beat',
  '1/3': 'a third of a beat',
  '2/3': 'two thirds of a beat',
  '1/4': 'a quarter of a beat',
  '3/4': 'three quarters of a beat',
};

/** A length in words: `half a beat`, `1 beat`, `1½ beats`. It is given in whole notes and counted in the meter's beats. */
export function tellBeats(length: Rational, meter: Meter): string {
  const beats = over(length, beatLength(meter));
  const whole = Math.floor(toNumber(beats));
  const part = `${beats.numerator - whole * beats.denominator}/${beats.denominator}`;
  if (beats.denominator === 1) return `${whole} ${whole === 1 ? 'beat' : 'beats'}`;
  if (whole === 0) return PARTS_ALONE[part] ?? `${part} of a beat`;
  return `${whole}${PARTS[part] ?? ` ${part}`} beats`;
}
