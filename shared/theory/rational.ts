/** An exact fraction in lowest terms, denominator positive. Durations and places in a bar are counted in whole notes. */
export interface Rational {
  readonly numerator: number;
  readonly denominator: number;
}

export const ZERO: Rational = { numerator: 0, denominator: 1 };

/** The fraction in lowest terms. The denominator must not be 0. */
export function rational(numerator: number, denominator = 1): Rational {
  const divisor = greatestCommonDivisor(Math.abs(numerator), Math.abs(denominator)) * Math.sign(denominator);
  return { numerator: numerator / divisor + 0, denominator: denominator / divisor };
}

export function plus(a: Rational, b: Rational): Rational {
  if (b.numerator === 0) return a;
  if (a.numerator === 0) return b;
  return rational(a.numerator * b.denominator + b.numerator * a.denominator, a.denominator * b.denominator);
}

export function minus(a: Rational, b: Rational): Rational {
  if (b.numerator === 0) return a;
  return rational(a.numerator * b.denominator - b.numerator * a.denominator, a.denominator * b.denominator);
}

export function times(a: Rational, b: Rational): Rational {
  return rational(a.numerator * b.numerator, a.denominator * b.denominator);
}

export function over(a: Rational, b: Rational): Rational {
  return rational(a.numerator * b.denominator, a.denominator * b.numerator);
}

/** Negative, zero or positive, as `a` is less than, equal to or more than `b`. */
export function compare(a: Rational, b: Rational): number {
  return a.numerator * b.denominator - b.numerator * a.denominator;
}

export function earlier(a: Rational, b: Rational): Rational {
  return compare(a, b) <= 0 ? a : b;
}

export function later(a: Rational, b: Rational): Rational {
  return compare(a, b) >= 0 ? a : b;
}

export function isWhole(a: Rational): boolean {
  return a.denominator === 1;
}

/** What is left of `a` after taking `b` out as often as it goes. Both positive. */
export function remainder(a: Rational, b: Rational): Rational {
  const quotient = over(a, b);
  return minus(a, times(b, rational(Math.floor(quotient.numerator / quotient.denominator))));
}

export function toNumber(a: Rational): number {
  return a.numerator / a.denominator;
}

/** Of two whole numbers above 0. */
export function greatestCommonDivisor(a: number, b: number): number {
  let greater = a;
  let less = b;
  while (less !== 0) {
    const rest = greater % less;
    greater = less;
    less = rest;
  }
  return greater || 1;
}

/** Of two whole numbers above 0. */
export function leastCommonMultiple(a: number, b: number): number {
  return (a / greatestCommonDivisor(a, b)) * b;
}
