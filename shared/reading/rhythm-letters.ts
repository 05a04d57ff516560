import { TICKS_OF_COUNT } from './tick.ts';

/** A letter that says how long a sound is. */
export interface RhythmLetter {
  readonly column: number;
  /** Unit: ticks, a quarter being one count. */
  readonly ticks: number;
}

/** Quarters in each value, by the letter that its English name begins with; `t` is the thirty-second. Common practice, no source. */
const QUARTERS: Readonly<Record<string, number>> = { w: 4, h: 2, q: 1, e: 1 / 2, s: 1 / 4, t: 1 / 8 };

/** Reads `q  q  e e h.` over a tab. Nothing where the line holds anything else: `E` alone may be a chord. */
export function readRhythmLetters(text: string): readonly RhythmLetter[] | undefined {
  const words = [...text.matchAll(/[^\s|]+/g)];
  if (words.length < 2 || !words.some(([word]) => /^[whqst]/i.test(word))) return undefined;
  const letters: RhythmLetter[] = [];
  for (const { 0: word, index } of words) {
    const match = /^([whqest])(\.?)$/i.exec(word);
    const quarters = QUARTERS[match?.[1]?.toLowerCase() ?? ''];
    if (match === null || quarters === undefined) return undefined;
    letters.push({ column: index, ticks: quarters * TICKS_OF_COUNT * (match[2] === '.' ? 1.5 : 1) });
  }
  return letters;
}
