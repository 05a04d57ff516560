import { printShape } from '../neck/shape.ts';
import { type Difficulty, type DifficultyParts, difficultyOfChange, difficultyOfShape } from './difficulty.ts';
import { HARDEST_LEADS_POWER, MOST_DIFFICULT } from './difficulty-table.ts';
import { fingerRow } from './finger.ts';
import type { FingeredSequence, HeldChord, SkippedChord } from './sequence.ts';

/** One thing that has to be learnt: a shape with its fingers, a change, or a chord that this hand does not reach. */
export interface Moment {
  readonly kind: 'shape' | 'change' | 'out-of-reach';
  /** The same for what has to be learnt only once. */
  readonly key: string;
  /** Place of its sequence in the lesson. */
  readonly sequence: number;
  /** Place of the chord in its sequence; for a change, of the chord it leads to. */
  readonly at: number;
  readonly difficulty: Difficulty;
}

/** How hard an exercise or a lesson is. Where it is shown, `CAUTION_ON_STRETCH` belongs. */
export interface SequenceDifficulty extends Difficulty {
  /** The largest that each part is at any moment: they need not be of one moment, and do not add up to the whole. */
  readonly parts: DifficultyParts;
  /** The first of equals; absent where nothing is played. */
  readonly hardest?: Moment;
}

/**
 * How hard a sequence is: led by its hardest moments. Each shape and each change counts once, at its hardest, however often it comes:
 * playing the same again is not one more thing to learn. Then
 * - it is at least as hard as its hardest moment, and never more than that times the twelfth root of the number of moments;
 * - while the fingers stay the same, a chord or change more, or less time, never makes it easier; a repetition of what is there
 *   changes nothing, and the order does not matter. So a slower tempo is never harder, because it changes no finger (see
 *   `fingerSequence`); for one chord more other fingers may be chosen, for the least effort, and then the number may fall.
 * Chords out of reach are 10. Given fingers that cannot work at all are a mistake, not a difficulty, and do not count.
 */
export function difficultyOfSequence(sequence: FingeredSequence): SequenceDifficulty {
  return difficultyOfLesson([sequence]);
}

/** How hard a lesson is: the moments of all its sequences together, by the same rules. */
export function difficultyOfLesson(sequences: readonly FingeredSequence[]): SequenceDifficulty {
  const moments = sequences.flatMap((sequence, place) => momentsOf(sequence, place));
  const hardestOfKey = new Map<string, number>();
  let hardest = moments[0];
  const parts = { reach: 0, fingers: 0, barre: 0, change: 0, speed: 0 };
  for (const moment of moments) {
    const { total } = moment.difficulty;
    hardestOfKey.set(moment.key, Math.max(total, hardestOfKey.get(moment.key) ?? 0));
    if (hardest === undefined || total > hardest.difficulty.total) hardest = moment;
    for (const part of PARTS) parts[part] = Math.max(parts[part], moment.difficulty.parts[part]);
  }
  let sum = 0;
  for (const total of hardestOfKey.values()) sum += total ** HARDEST_LEADS_POWER;
  const total = Math.min(MOST_DIFFICULT, sum ** (1 / HARDEST_LEADS_POWER));
  return { total, parts, ...(hardest === undefined ? {} : { hardest }) };
}

const PARTS = ['reach', 'fingers', 'barre', 'change', 'speed'] as const;

function momentsOf({ chords, changes }: FingeredSequence, sequence: number): readonly Moment[] {
  const ofChords = chords.flatMap((chord, at): readonly Moment[] => {
    const key = keyOf(chord);
    if (chord.kind === 'held') {
      return [{ kind: 'shape', key, sequence, at, difficulty: difficultyOfShape(chord.fingering) }];
    }
    return chord.why === 'given-fingers' ? [] : [{ kind: 'out-of-reach', key, sequence, at, difficulty: OUT_OF_REACH }];
  });
  const ofChanges = changes.flatMap(({ from, to, change, speed }): readonly Moment[] => {
    const [before, after] = [chords[from], chords[to]];
    if (before === undefined || after === undefined) return [];
    const key = `${keyOf(before)} > ${keyOf(after)}`;
    return [{ kind: 'change', key, sequence, at: to, difficulty: difficultyOfChange(change, speed) }];
  });
  return [...ofChords, ...ofChanges];
}

const OUT_OF_REACH: Difficulty = {
  total: MOST_DIFFICULT,
  parts: { reach: MOST_DIFFICULT, fingers: 0, barre: 0, change: 0, speed: 0 },
};

function keyOf(chord: HeldChord | SkippedChord): string {
  const fingers =
    chord.kind === 'held' ? chord.fingering.fingers.map((finger) => (finger ? fingerRow(finger) : '-')) : [];
  return `${printShape(chord.shape)} ${fingers.join('')}`;
}
