import type { ScoreBar } from '../../score/timeline.ts';
import { barLength, countLength } from '../../theory/meter.ts';
import { compare, isWhole, minus, over, plus, type Rational, rational, times, ZERO } from '../../theory/rational.ts';

/** A word of the count line and when it is said, from the start of the bar in whole notes; before it where a pickup comes off the count. */
export interface CountedWord {
  readonly at: Rational;
  readonly word: string;
}

/** What is said between two numbers, by the parts of a count. Source: traditional counting; common practice. */
const SYLLABLES: Readonly<Record<number, readonly string[]>> = {
  1: [],
  2: ['&'],
  3: ['la', 'li'],
  4: ['e', '&', 'a'],
};

/** Said where a count has more parts than have names of their own. */
const ANY_PART = 'ta';

/** Parts of a count that are tried, the fewest first. */
const PARTS = [1, 2, 3, 4, 6, 8, 12, 16, 5, 7, 24, 32] as const;

/**
 * The count of a bar in which every given moment has a word: each count has its number, and is parted evenly where something happens
 * between two. Moments that no even parting reaches stand between the words.
 */
export function countedWords(bar: ScoreBar, moments: readonly Rational[]): readonly CountedWord[] {
  const count = countLength(bar.meter);
  const full = barLength(bar.meter);
  // A pickup is the end of a bar.
  const before = bar.number === undefined && compare(bar.length, full) < 0 ? minus(full, bar.length) : ZERO;
  const end = plus(before, bar.length);
  const inCounts = moments.map((at) => over(plus(before, at), count));
  const words: CountedWord[] = [];
  for (let number = floorOf(over(before, count)); compare(times(count, rational(number)), end) < 0; number += 1) {
    const into = inCounts
      .map((at) => minus(at, rational(number)))
      .filter((at) => at.numerator >= 0 && at.numerator < at.denominator);
    const parts = PARTS.find((many) => into.every((at) => isWhole(times(at, rational(many))))) ?? 1;
    for (let part = 0; part < parts; part += 1) {
      const at = minus(times(count, plus(rational(number), rational(part, parts))), before);
      if (compare(plus(before, at), end) >= 0) break;
      const word = part === 0 ? String(number + 1) : (SYLLABLES[parts]?.[part - 1] ?? ANY_PART);
      words.push({ at, word });
    }
  }
  return words;
}

function floorOf({ numerator, denominator }: Rational): number {
  return Math.floor(numerator / denominator);
}
