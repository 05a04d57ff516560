import type { Box, TextItem, TextRole } from './drawing.ts';

/** Average advance of the characters of a class. Unit: em. */
interface Advances {
  readonly narrow: number;
  readonly small: number;
  readonly figure: number;
  readonly capital: number;
  readonly wide: number;
  readonly space: number;
}

/**
 * Advances of the faces that the roles are set in. The reader's own faces decide what is really painted, so each value is that
 * of the wider of the usual ones. Source: advance widths of Liberation Serif and Sans (as wide as the faces that most systems
 * ship for serif and sans), measured in a browser, with a tenth added for wider faces.
 */
const ADVANCES: Readonly<Record<TextRole, Advances>> = {
  number: { narrow: 0.32, small: 0.58, figure: 0.6, capital: 0.74, wide: 0.92, space: 0.3 },
  name: { narrow: 0.35, small: 0.54, figure: 0.55, capital: 0.74, wide: 0.92, space: 0.27 },
  count: { narrow: 0.32, small: 0.5, figure: 0.54, capital: 0.72, wide: 0.86, space: 0.27 },
  word: { narrow: 0.33, small: 0.5, figure: 0.54, capital: 0.74, wide: 0.9, space: 0.27 },
};

/** Height of figures and capitals above the baseline. Unit: em. Source: as the advances. */
export const FIGURE_HEIGHT_EM = 0.72;

/** How far letters such as p reach below the baseline. Unit: em. Source: as the advances. */
const DESCENT_EM = 0.22;

/** A character of a script that sets each in a square of its own. */
const SQUARE = /[\u2E80-\u9FFF\uAC00-\uD7AF\uF900-\uFAFF\uFF00-\uFF60]|\p{Extended_Pictographic}/u;

/** Width of one line of text. Unit: that of `size`. */
export function textWidth(text: string, role: TextRole, size: number): number {
  const advances = ADVANCES[role];
  let em = 0;
  for (const character of text) em += advanceOf(character, advances);
  return em * size;
}

/** The area that a text takes up, baseline and anchor reckoned in. */
export function textBox(item: TextItem): Box {
  const plain =
    item.runs === undefined
      ? textWidth(item.text, item.role, item.size)
      : item.runs.reduce((sum, run) => sum + textWidth(run.text, item.role, run.size), 0);
  const width = plain * (item.bold === true ? 1.06 : 1);
  const before = item.anchor === 'start' ? 0 : item.anchor === 'middle' ? width / 2 : width;
  const runs = item.runs ?? [{ text: item.text, size: item.size, lift: 0 }];
  const height = Math.max(...runs.map(({ size, lift }) => lift + FIGURE_HEIGHT_EM * size));
  // Figures and capitals have nothing below the line, so only other letters claim room there.
  const below = Math.max(
    0,
    ...runs.map(({ text, size, lift }) => (/[gjpqy,;()]/.test(text) ? DESCENT_EM * size - lift : 0)),
  );
  return { x: item.x - before, y: item.y - height, width, height: height + below };
}

function advanceOf(character: string, advances: Advances): number {
  if (character === ' ') return advances.space;
  if (/[0-9]/.test(character)) return advances.figure;
  if (/[ijltfr.,:;'’|!()[\]/-]/.test(character)) return advances.narrow;
  if (/[mwMW&@%—]/.test(character)) return advances.wide;
  if (SQUARE.test(character)) return 1;
  if (/\p{Mn}/u.test(character)) return 0;
  return /\p{Lu}/u.test(character) ? advances.capital : advances.small;
}
