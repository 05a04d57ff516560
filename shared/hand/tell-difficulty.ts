import { type Difficulty, type DifficultyParts, levelWord } from './difficulty.ts';
import { MOST_DIFFICULT } from './difficulty-table.ts';

/** Points to a tenth: finer than any estimate is, and the last figure still tells two shapes apart. */
export function roundedPoints(points: number): number {
  return Math.round(points * 10) / 10;
}

/** `2.4` */
export function printPoints(points: number): string {
  return roundedPoints(points).toFixed(1);
}

/** `2.4 of 10, elementary`: the word is that of the number as it is printed. Where it is shown, `CAUTION_ON_STRETCH` belongs. */
export function tellDifficulty({ total }: Difficulty): string {
  return `${printPoints(total)} of ${MOST_DIFFICULT}, ${levelWord(roundedPoints(total))}`;
}

/** A part below this is left unsaid. Unit: points. Common practice, no source. */
const LEAST_TOLD = 0.2;

const PARTS: readonly (keyof DifficultyParts)[] = ['reach', 'fingers', 'barre', 'change', 'speed'];

/** `fingers 2.3, reach 0.6`: the parts that matter, the largest first; nothing where none does. */
export function tellParts({ parts }: Difficulty): string | undefined {
  const told = PARTS.filter((part) => parts[part] >= LEAST_TOLD)
    .sort((one, other) => parts[other] - parts[one])
    .map((part) => `${part} ${printPoints(parts[part])}`);
  return told.length === 0 ? undefined : told.join(', ');
}
