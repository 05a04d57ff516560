import { leastCommonMultiple, type Rational } from '../theory/rational.ts';
import type { ExactMoment } from './performance-clock.ts';

/** Counts exact times in whole ticks. */
export interface Ticks {
  readonly perWhole: number;
  ticks(time: Rational): number;
  moment(moment: ExactMoment): number | readonly [played: number, even: number];
  differs(moment: ExactMoment): boolean;
}

/** Ticks so fine that each of these times is a whole number of them. */
export function createTicks(used: readonly (ExactMoment | Rational)[]): Ticks {
  const perWhole = used.reduce((least, time) => {
    const times = 'played' in time ? [time.played, time.even] : [time];
    return times.reduce((finer, { denominator }) => leastCommonMultiple(finer, denominator), least);
  }, 4);
  const ticks = ({ numerator, denominator }: Rational): number => (numerator * perWhole) / denominator;
  const differs = ({ played, even }: ExactMoment): boolean => ticks(played) !== ticks(even);
  return {
    perWhole,
    ticks,
    differs,
    moment: (moment) => (differs(moment) ? [ticks(moment.played), ticks(moment.even)] : ticks(moment.played)),
  };
}
