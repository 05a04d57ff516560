import { compare, type Rational } from '../../theory/rational.ts';
import type { ResolvedChord } from './resolved-chord.ts';

/** Which chord is held from when on. Times are whole notes from the start of the pass; `chord` is absent for N.C. */
export interface ChordChange {
  readonly at: Rational;
  readonly chord: ResolvedChord | undefined;
}

/** The chord held at a time: that of the last change at or before it. Changes must be in order of time. */
export function chordAt(changes: readonly ChordChange[], time: Rational): ResolvedChord | undefined {
  let low = 0;
  let high = changes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const change = changes[middle];
    if (change !== undefined && compare(change.at, time) <= 0) low = middle + 1;
    else high = middle;
  }
  return changes[low - 1]?.chord;
}

/** The changes with some added, in order of time; at equal times the added one counts. */
export function withChanges(changes: readonly ChordChange[], added: readonly ChordChange[]): readonly ChordChange[] {
  if (added.length === 0) return changes;
  return [...changes, ...added].sort((a, b) => compare(a.at, b.at));
}
