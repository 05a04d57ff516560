import type { AskedFamily } from './asked-family.ts';
import type { Candidate } from './candidates.ts';
import { FAMILY_POINTS, SHARE_THAT_DIFFERS } from './family-table.ts';
import { leastKept, neighboursAt } from './kept-neighbours.ts';
import type { ProgressionInNumbers } from './progression-in-numbers.ts';

/** The search as numbers: chords that come twice in a row are one step. */
export function inNumbers(
  { neck, chordOf }: AskedFamily,
  choices: readonly (readonly Candidate[])[],
): ProgressionInNumbers {
  const steps: { chord: number; times: number }[] = [];
  for (const chord of chordOf) {
    const last = steps.at(-1);
    if (last?.chord === chord) last.times += 1;
    else steps.push({ chord, times: 1 });
  }
  const free = choices.filter(({ length }) => length > 1).length;
  return {
    chordOf: steps.map(({ chord }) => chord),
    times: steps.map(({ times }) => times),
    own: choices.map((list) => Float64Array.from(list, ({ harmony, hold }) => harmony + hold)),
    between: (from, to) =>
      neighboursAt(neck, [choices[from.chord] ?? [], from.choices], [choices[to.chord] ?? [], to.choices]),
    leastBetween: (from, to) => leastKept(neck, choices[from] ?? [], choices[to] ?? []),
    turn: FAMILY_POINTS.turn,
    alike: (chord, one, other) => areAlike(choices[chord]?.[one], choices[chord]?.[other]),
    excludes: (chord, choice, other, otherChoice) => sameShape(choices[chord]?.[choice], choices[other]?.[otherChoice]),
    leastDifferent: Math.max(free > 2 ? 2 : 1, Math.ceil(free * SHARE_THAT_DIFFERS)),
  };
}

/** True where they differ on no string, or on one only and there no tone comes or goes. */
function areAlike(one: Candidate | undefined, other: Candidate | undefined): boolean {
  if (one === undefined || other === undefined || one === other) return true;
  let only: number | undefined;
  for (let at = 0; at < one.shape.length; at += 1) {
    if (one.shape[at] === other.shape[at]) continue;
    if (only !== undefined) return false;
    only = at;
  }
  if (only === undefined) return true;
  return one.shape[only] === 'muted' || other.shape[only] === 'muted' || one.sounds === other.sounds;
}

function sameShape(one: Candidate | undefined, other: Candidate | undefined): boolean {
  return one !== undefined && other !== undefined && one.shape.every((fret, at) => fret === other.shape[at]);
}
