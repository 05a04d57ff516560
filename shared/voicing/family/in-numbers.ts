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

function areAlike(one: Candidate | undefined, other: Candidate | undefined): boolean {
  if (one === undefined || other === undefined || one === other) return true;
  const differing = [...one.shape.keys()].filter((at) => one.shape[at] !== other.shape[at]);
  const [only] = differing;
  if (only === undefined) return true;
  if (differing.length > 1) return false;
  return one.shape[only] === 'muted' || other.shape[only] === 'muted' || one.sounds === other.sounds;
}

function sameShape(one: Candidate | undefined, other: Candidate | undefined): boolean {
  return one !== undefined && other !== undefined && one.shape.every((fret, at) => fret === other.shape[at]);
}
