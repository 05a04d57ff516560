import type { RhythmEntry, RhythmLine } from '../score/rhythm.ts';
import { type Item, line, type PathStep } from './drawing.ts';
import { filled } from './outlines.ts';
import { SIZES } from './sizes.ts';
import type { Piece, Staff } from './tab-piece.ts';
import { rhythmRow } from './tab-rhythm.ts';
import { openingsAround } from './tab-signs.ts';

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
  const { items, half } = restShape(1 / entry.value, middle);
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

function restShape(length: number, y: number): { readonly items: readonly Item[]; readonly half: number } {
  if (length >= 1 / 2) {
    const whole = length >= 1;
    const block: Item = {
      kind: 'rectangle',
      x: -1.2,
      y: whole ? y : y - 0.95,
      width: 2.4,
      height: 0.95,
      rounding: 0,
      ink: 'strong',
    };
    return { items: [line(-1.8, y, 1.8, y, 0.2), block], half: 1.8 };
  }
  if (length >= 1 / 4) {
    const steps: readonly PathStep[] = [
      ['M', -0.55, y - 2.3],
      ['L', 0.75, y - 0.75],
      ['C', -0.15, y, -0.1, y + 0.25, 0.85, y + 1.25],
      ['C', 0.1, y + 0.75, -0.9, y + 1.1, 0.1, y + 2.3],
      ['C', -1.7, y + 1.4, -0.95, y + 0.35, 0.05, y + 0.75],
      ['L', -0.75, y - 0.35],
      ['C', 0.1, y - 1.1, 0.05, y - 1.45, -0.55, y - 2.3],
      ['Z'],
    ];
    return { items: [filled('strong', ...steps)], half: 0.9 };
  }
  const hooks = length >= 1 / 8 - 1e-9 || length > 1 / 13 ? 1 : 2;
  const items: Item[] = [line(0.75, y - 1.25, hooks === 1 ? -0.25 : -0.6, y + (hooks === 1 ? 2 : 2.4), 0.26)];
  for (let hook = 0; hook < hooks; hook++) {
    const top = y - 1.2 + hook * 1.35;
    const x = -hook * 0.45;
    items.push({ kind: 'circle', x: x - 0.6, y: top, radius: 0.46, ink: 'strong' });
    items.push({
      kind: 'path',
      steps: [
        ['M', x - 0.6, top + 0.3],
        ['C', x - 0.1, top + 0.75, x + 0.4, top + 0.5, x + 0.72, top],
      ],
      ink: 'strong',
      thickness: 0.26,
    });
  }
  return { items, half: 1.1 };
}
