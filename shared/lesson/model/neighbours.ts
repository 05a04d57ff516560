import type { ProgressionStatement } from '../syntax/statement.ts';
import type { ChordName } from '../syntax/words.ts';
import { chordsIn } from './chords-in.ts';

export type Side = 'before' | 'after';

type Neighbours = Readonly<Partial<Record<Side, string>>>;

// A statement never changes, so what was read from one may live as long as it does.
const kept = new WeakMap<ProgressionStatement, ReadonlyMap<string, Neighbours>>();

/**
 * The chord, as it is written, that stands before or after another one in the first of the progressions that uses it. Where
 * its first use is at an end, a later use tells.
 */
export function neighbourIn(
  progressions: Iterable<ProgressionStatement>,
  text: string,
  side: Side,
): string | undefined {
  for (const progression of progressions) {
    const found = neighboursIn(progression).get(text);
    if (found !== undefined) return found[side];
  }
  return undefined;
}

/** The first of the progressions that uses the chord, as it is written. */
export function firstWith(
  progressions: Iterable<ProgressionStatement>,
  text: string,
): ProgressionStatement | undefined {
  for (const progression of progressions) if (neighboursIn(progression).has(text)) return progression;
  return undefined;
}

function neighboursIn(progression: ProgressionStatement): ReadonlyMap<string, Neighbours> {
  const known = kept.get(progression);
  if (known !== undefined) return known;
  const chords = chordsIn(progression);
  // The first use of a chord comes first; a later one only tells what that does not.
  const before = differentBefore(chords);
  const after = differentBefore([...chords].reverse());
  const found = new Map<string, Neighbours>();
  chords.forEach(({ text }, index) => {
    const sides = found.get(text);
    const [from, to] = [sides?.before ?? before[index], sides?.after ?? after[chords.length - 1 - index]];
    found.set(text, { ...(from === undefined ? {} : { before: from }), ...(to === undefined ? {} : { after: to }) });
  });
  kept.set(progression, found);
  return found;
}

/** For each chord the last one in front of it with another name: a chord struck again, or in another shape, is no change. */
function differentBefore(chords: readonly ChordName[]): readonly (string | undefined)[] {
  let last: ChordName | undefined;
  let beforeRun: string | undefined;
  return chords.map((chord) => {
    if (last !== undefined && last.name !== chord.name) beforeRun = last.text;
    last = chord;
    return beforeRun;
  });
}
