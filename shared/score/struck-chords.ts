import { compare, minus, type Rational, ZERO } from '../theory/rational.ts';
import { struckStrings } from './placed-events.ts';
import type { Pass, ScoreBar, ScoreChord, ScoreEvent } from './timeline.ts';

/**
 * The bars of a pass as they are heard. Where no pattern says what the right hand does, each chord is struck slowly where it is taken,
 * and again at the head of each bar that it goes on for: the plain chords, as a teacher plays them before anything else. The sheet
 * leaves these bars empty, since the stroke is not the lesson's.
 */
export function barsAsHeard({ bars, with: patterns }: Pick<Pass, 'bars' | 'with'>): readonly ScoreBar[] {
  if (patterns.length > 0 || bars.some(({ events }) => events.length > 0)) return bars;
  let going: ScoreChord | undefined;
  return bars.map((bar): ScoreBar => {
    const head = bar.chords.some(({ at }) => compare(at, ZERO) === 0) ? undefined : going;
    going = bar.chords.at(-1) ?? going;
    const taken = head === undefined ? bar.chords : [{ ...head, at: ZERO }, ...bar.chords];
    return { ...bar, events: taken.flatMap((chord, nth) => stroke(chord, taken[nth + 1]?.at ?? bar.length)) };
  });
}

/** Nothing where no chord is played. */
function stroke({ at, chord, source }: ScoreChord, until: Rational): readonly ScoreEvent[] {
  if (chord === undefined) return [];
  const notes = struckStrings(chord, 'down', undefined, false);
  const hand = { direction: 'down', slow: true, damped: false, light: false, accent: false } as const;
  return [{ kind: 'strum', at, length: minus(until, at), source, ...hand, notes }];
}
