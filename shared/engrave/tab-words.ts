import { group, type Item } from './drawing.ts';
import { SIZES } from './sizes.ts';
import type { Row } from './tab-piece.ts';
import type { Slot } from './tab-spacing.ts';
import { textWidth } from './text-width.ts';

/** Kept free behind a syllable for its hyphen, beside the clearance of the row. Unit: mm. */
export const HYPHEN_ROOM_MM = 0.9;

/** One hyphen looks lost in a wider gap; more of them lead the eye. Unit: mm. Common practice of engraving, no source. */
const HYPHEN_EVERY_MM = 22;

/**
 * Hyphens between the syllables of a word, in the middle of the way. A word that goes on in the next line has its hyphen behind its
 * last syllable here.
 */
export function hyphensOf(
  slots: readonly Slot[],
  at: (slot: number) => number,
  y: (row: Row) => number,
): readonly Item[] {
  const open = new Map<Row, number>();
  const items: Item[] = [];
  const hyphen = (row: Row, x: number): void => {
    items.push(group(x, y(row), [{ ...HYPHEN, x: -textWidth('-', 'word', SIZES.word) / 2 }]));
  };
  slots.forEach((slot, index) => {
    for (const { row, left, right, goesOn } of slot.pieces) {
      if (!row.startsWith('word-')) continue;
      const from = open.get(row);
      if (from !== undefined) {
        const to = at(index) - left;
        const count = Math.max(1, Math.floor((to - from) / HYPHEN_EVERY_MM));
        for (let nth = 1; nth <= count; nth += 1) hyphen(row, from + ((to - from) * nth) / (count + 1));
      }
      if (goesOn === true) open.set(row, at(index) + right - HYPHEN_ROOM_MM);
      else open.delete(row);
    }
  });
  for (const [row, from] of open) hyphen(row, from + HYPHEN_ROOM_MM);
  return items;
}

const HYPHEN = {
  kind: 'text',
  x: 0,
  y: 0,
  text: '-',
  size: SIZES.word,
  anchor: 'start',
  role: 'word',
  ink: 'strong',
} as const;
