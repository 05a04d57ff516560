import type { Change } from './change.ts';
import { hurryOf, type JudgedChange } from './change-speed.ts';
import { CHANGE_POINTS, LEVEL_WORDS, MOST_DIFFICULT, POINTS_OF_FINGERS, SHAPE_POINTS } from './difficulty-table.ts';
import { strainOf } from './finger-reach.ts';
import type { Fingering } from './fingering.ts';

/** Where the difficulty comes from. Each is nothing or more. Unit: points. */
export interface DifficultyParts {
  readonly reach: number;
  /** How many fingers, and how crowded or crossed they stand. */
  readonly fingers: number;
  /** Strength for fingers laid flat. */
  readonly barre: number;
  /** What moves between shapes, at any tempo. */
  readonly change: number;
  /** What the tempo leaves no time for. */
  readonly speed: number;
}

/** How hard something is to play, 0 to 10; an estimate for a typical hand. Where it is shown, `CAUTION_ON_STRETCH` belongs. */
export interface Difficulty {
  /** 10 for what is out of reach. Otherwise the sum of the parts, 10 at most, for one shape or one change. */
  readonly total: number;
  readonly parts: DifficultyParts;
}

/**
 * How hard a shape is, held like this. While all else stays the same, a wider reach, a smaller hand, one more finger or a heavier
 * barre never make it easier. A small change of the reach changes it little, except at the limit of the hand.
 * Where it is shown, `CAUTION_ON_STRETCH` belongs.
 */
export function difficultyOfShape({ cost, presses, widest, verdict }: Fingering): Difficulty {
  const parts: DifficultyParts = {
    ...NO_PARTS,
    reach: widest === undefined ? 0 : reachPoints(strainOf(widest.reachMm, widest.limit)),
    fingers:
      (POINTS_OF_FINGERS[presses.length] ?? 0) +
      SHAPE_POINTS.awkwardEffort * cost.awkwardness +
      SHAPE_POINTS.reversedEffort * cost.reversed,
    barre: saturating(cost.barre, SHAPE_POINTS.mostBarre, SHAPE_POINTS.halfBarreEffort),
  };
  return verdict === 'out-of-reach' ? { total: MOST_DIFFICULT, parts } : summed(parts);
}

/**
 * How hard a change is, held against the time there is for it by `judgeChange`; without a time only what moves counts. Less time never
 * makes it easier. Nothing moves, nothing is hard. Where it is shown, `CAUTION_ON_STRETCH` belongs.
 */
export function difficultyOfChange(change: Change, judged?: JudgedChange): Difficulty {
  const hurry = judged === undefined ? 0 : hurryOf(judged.neededSeconds, judged.seconds);
  return summed({
    ...NO_PARTS,
    change: saturating(change.cost.total, CHANGE_POINTS.most, CHANGE_POINTS.halfEffort),
    speed: Math.min(MOST_DIFFICULT, CHANGE_POINTS.fullHurry * hurry ** CHANGE_POINTS.hurryPower),
  });
}

/** `intermediate`: the word for a number from 0 to 10. */
export function levelWord(points: number): string {
  return LEVEL_WORDS.findLast(({ from }) => points >= from)?.word ?? LEVEL_WORDS[0].word;
}

const NO_PARTS: DifficultyParts = { reach: 0, fingers: 0, barre: 0, change: 0, speed: 0 };

function reachPoints(strain: number): number {
  const { reachAtEase, stretch, stretchPower } = SHAPE_POINTS;
  const points = strain <= 1 ? reachAtEase * strain ** 2 : reachAtEase + stretch * (strain - 1) ** stretchPower;
  return Math.min(MOST_DIFFICULT, points);
}

/** Grows with the effort, ever more slowly: the second flat finger is not twice the first. */
function saturating(effort: number, most: number, halfEffort: number): number {
  return (most * effort) / (effort + halfEffort);
}

function summed(parts: DifficultyParts): Difficulty {
  const sum = parts.reach + parts.fingers + parts.barre + parts.change + parts.speed;
  return { total: Math.min(MOST_DIFFICULT, sum), parts };
}
