import type { RhythmEntry, RhythmLine } from '../score/rhythm-line.ts';
import { group, type Item, line } from './drawing.ts';
import { SIZES } from './sizes.ts';
import type { Piece, Staff } from './tab-piece.ts';
import { rhythmRow } from './tab-rhythm.ts';
import { openingsAround } from './tab-signs.ts';
import { sizedSign } from './type/music-sign.ts';

/**
 * Silence of its written length: in the middle of the staff where one line of rhythm is written, among the stems of its side where
 * there are two.
 */
export function restPiece(
  staff: Staff,
  entry: Pick<RhythmEntry, 'value' | 'dots'>,
  side: RhythmLine['side'] | undefined,
): Piece {
  const middle = side === undefined ? staff.height / 2 : (side === 'above' ? -1 : 1) * SIZES.rhythm.restLevel;
  const { items, half } = restShape(entry.value, middle);
  const dots = Array.from(
    { length: entry.dots },
    (_, index): Item => ({
      kind: 'circle',
      x: half + 0.7 + index * SIZES.rhythm.dotStep,
      y: middle - 0.6,
      radius: SIZES.rhythm.dotRadius,
      ink: 'strong',
    }),
  );
  const piece = {
    left: half + 0.2,
    right: half + 0.2 + entry.dots * SIZES.rhythm.dotStep,
    items: [...items, ...dots],
    signs: ['stop-all'] as const,
  };
  if (side !== undefined) return { ...piece, row: rhythmRow(side), height: SIZES.rhythm.stem + SIZES.rhythm.beyond };
  return { ...piece, row: 'staff', openings: openingsAround(staff, middle, half + 0.5, 2.6) };
}

/** The rest of an empty bar, which hangs from the middle of the staff wherever the middle of the bar is. */
export function wholeBarRest(staff: Staff): readonly Item[] {
  return restShape(1, staff.height / 2).items;
}

/** Rests by their value, whole first. */
const RESTS = {
  1: sizedSign('restWhole', SIZES.rhythm.signSpace),
  2: sizedSign('restHalf', SIZES.rhythm.signSpace),
  4: sizedSign('restQuarter', SIZES.rhythm.signSpace),
  8: sizedSign('rest8th', SIZES.rhythm.signSpace),
  16: sizedSign('rest16th', SIZES.rhythm.signSpace),
  32: sizedSign('rest32nd', SIZES.rhythm.signSpace),
  64: sizedSign('rest64th', SIZES.rhythm.signSpace),
} as const;

/** The rest with its middle on `y`; a whole rest hangs from its line and a half rest stands on it, as the line of a staff would have it. */
function restShape(value: RhythmEntry['value'], y: number): { readonly items: readonly Item[]; readonly half: number } {
  const { item, left, right } = RESTS[value];
  const half = (right - left) / 2;
  const rest = group(-(left + right) / 2, y, [item]);
  return {
    items: value > 2 ? [rest] : [line(-half - 0.5, y, half + 0.5, y, 0.2), rest],
    half: value > 2 ? half : half + 0.5,
  };
}
