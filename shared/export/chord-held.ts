import type { ResolvedChord } from '../lesson/model/resolved-chord.ts';
import type { ScoreBar } from '../score/timeline.ts';
import { compare, type Rational } from '../theory/rational.ts';

/** The chord that is held at a time of the bar; the one of the bar before where this bar has taken none yet. Nothing at N.C. */
export function chordHeldAt(
  { chords }: ScoreBar,
  at: Rational,
  before: ResolvedChord | undefined,
): ResolvedChord | undefined {
  const taken = chords.filter((chord) => compare(chord.at, at) <= 0).at(-1);
  return taken === undefined ? before : taken.chord;
}
