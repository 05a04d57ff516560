import { plus, type Rational, ZERO } from '../theory/rational.ts';
import type { PerformedChord } from './performance.ts';
import type { PerformedPass } from './performance-bars.ts';
import type { ExactMoment } from './performance-clock.ts';
import type { ScoreBar } from './timeline.ts';

/** A chord as it is taken, before its time is counted in ticks. */
export interface ExactChord extends Omit<PerformedChord, 'at'> {
  readonly at: ExactMoment;
}

/** The chords of one time through in the order in which they are taken. `before` counts the bars performed before it. */
export function performedChords(bars: readonly ScoreBar[], pass: PerformedPass, before: number): readonly ExactChord[] {
  let start: Rational = ZERO;
  return pass.bars.flatMap(({ written }, index): readonly ExactChord[] => {
    const bar = bars[written];
    if (bar === undefined) return [];
    const taken = bar.chords.map(({ at, chord }): ExactChord => {
      const named = chord === undefined ? {} : { held: chord.text, name: chord.name };
      return { at: pass.momentAt(plus(start, at)), bar: before + index, ...named };
    });
    start = plus(start, bar.length);
    return taken;
  });
}
