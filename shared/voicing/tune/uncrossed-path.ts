import type { InSteps } from '../in-steps.ts';
import { type Candidate, crossEachOther } from './candidates.ts';
import { bestTunePath, type PathProblem, type TunePath } from './tune-path.ts';

/** The notes that are played while one shape stays in the hand: moments from one to another that is not included. */
export interface ShapeRun {
  readonly from: number;
  readonly to: number;
}

/** What the search knows of the hand, moment by moment. */
export interface FingeredProblem {
  readonly problem: PathProblem;
  /** By moment, what stands behind the places of its layer. */
  readonly candidates: readonly (readonly Candidate[])[];
  readonly runs: readonly ShapeRun[];
}

/** The runs of moments over the same chord in the hand, told by its key. */
export function runsOf(keys: readonly string[]): readonly ShapeRun[] {
  const starts = keys.flatMap((key, at) => (at === 0 || key !== keys[at - 1] ? [at] : []));
  return starts.map((from, at) => ({ from, to: starts[at + 1] ?? keys.length }));
}

/**
 * The choice with the fewest points among those whose fingers are not crossed: on each string, as long as one shape is in the hand,
 * whatever is played between. Nothing where there is none. By branch and bound: where the best choice of all crosses two notes, every
 * choice that does not does without the one or without the other, and the better of the two ways goes on first. Exact but for rows that must branch more than `MOST_BRANCHINGS` times; from then on the way
 * that was begun is gone to its end. Cut into steps, one for each branching.
 */
export function* bestUncrossedPath(fingered: FingeredProblem): InSteps<TunePath | undefined> {
  let branchings = 0;
  const open = branch(fingered, []);
  for (;;) {
    const node = open.shift();
    if (node === undefined) return undefined;
    const ways = waysWithoutCrossed(fingered, node);
    if (ways === undefined) return { picks: node.picks, points: node.points };
    yield;
    branchings += 1;
    open.push(...ways.flatMap((bar) => branch(fingered, [...node.without, bar])));
    const isLong = branchings > MOST_BRANCHINGS;
    open.sort((a, b) => (isLong ? b.without.length - a.without.length : 0) || a.points - b.points);
  }
}

/** So often the search branches before it goes on with what it has. Nearly all rows branch less than ten times. */
const MOST_BRANCHINGS = 60;

/** What a string does without during a run: these fingers on these frets, both ends included. */
interface Bar {
  readonly run: ShapeRun;
  readonly stringIndex: number;
  readonly frets: readonly [from: number, to: number];
  readonly fingers: readonly [from: number, to: number];
}

interface Branch extends TunePath {
  readonly without: readonly Bar[];
}

/** One branch, or none where nothing is left. */
function branch({ problem, candidates }: FingeredProblem, without: readonly Bar[]): Branch[] {
  const layers = problem.layers.map((layer, at) => {
    const here = without.filter(({ run }) => at >= run.from && at < run.to);
    if (here.length === 0) return layer;
    const list = candidates[at] ?? [];
    const isLeft = (place: number) => here.some((bar) => isBarred(bar, list[place]));
    return { points: layer.points.map((points, place) => (isLeft(place) ? Number.POSITIVE_INFINITY : points)) };
  });
  const path = bestTunePath({ ...problem, layers });
  return path === undefined ? [] : [{ ...path, without }];
}

function isBarred({ stringIndex, frets, fingers }: Bar, candidate: Candidate | undefined): boolean {
  if (candidate === undefined || candidate.note.stringIndex !== stringIndex) return false;
  const { fret } = candidate.note;
  const { finger } = candidate.way;
  if (typeof finger !== 'number' || finger < fingers[0] || finger > fingers[1]) return false;
  return fret >= frets[0] && fret <= frets[1];
}

/**
 * What choices do without that lack the first pair of crossed notes, in two ways; nothing where no notes are crossed. Each stop of the
 * one way is crossed with each of the other, so that no choice that is not crossed has some of both.
 */
function waysWithoutCrossed({ candidates, runs }: FingeredProblem, { picks }: Branch): readonly Bar[] | undefined {
  for (const run of runs) {
    for (let later = run.from + 1; later < run.to; later += 1) {
      for (let earlier = later - 1; earlier >= run.from; earlier -= 1) {
        const [one, other] = [earlier, later].map((at) => candidates[at]?.[picks[at] ?? -1]);
        if (one === undefined || other === undefined || !crossEachOther(one, other)) continue;
        const [low, high] = one.note.fret < other.note.fret ? [one, other] : [other, one];
        const { stringIndex } = low.note;
        const [behind, front] = [Number(low.way.finger), Number(high.way.finger)];
        return [
          { run, stringIndex, frets: [low.note.fret, low.note.fret], fingers: [front + 1, behind] },
          { run, stringIndex, frets: [low.note.fret + 1, high.note.fret], fingers: [front, front] },
        ];
      }
    }
  }
  return undefined;
}
