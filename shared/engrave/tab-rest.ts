import type { RhythmEntry, RhythmLine } from '../score/rhythm-line.ts';
import { group, type Item, line } from './drawing.ts';
import { SIZES } from './sizes.ts';
import type { Piece, Staff } from './tab-piece.ts';
import { rhythmRow } from './tab-rhythm.ts';
import { openingsAround } from './tab-signs.ts';
import { sizedSign } from './type/music-sign.ts';

/** Silence of its written length, in the middle of the staff. */
export function restOnStaff(staff: Staff, { value, dots }: Pick<RhythmEntry, 'value' | 'dots'>): Piece {
  const middle = staff.height / 2;
  const { items, half } = restShape(value, middle);
  return {
    row: 'staff',
    left: half + 0.2,
    right: half + 0.2 + dots * SIZES.rhythm.dotStep,
    items: [...items, ...dotsBehind(half, middle - 0.6, dots)],
    openings: openingsAround(staff, middle, half + 0.5, 2.6),
    signs: ['stop-all'],
  };
}

/**
 * Silence of its written length among the stems of one side, where two lines of rhythm are written. It keeps between the staff and the
 * innermost of the `beams` that run over it, drawn smaller where that is needed.
 */
export function restBesideStaff(
  side: RhythmLine['side'],
  { value, dots }: Pick<RhythmEntry, 'value' | 'dots'>,
  beams: number,
): Piece {
  const { stem, beam, beamStep, beyond, dotStep } = SIZES.rhythm;
  const inner = beams === 0 ? stem : stem - (beams - 1) * beamStep - beam;
  const rest = RESTS[value];
  const room = inner - 2 * REST_CLEARANCE_MM;
  const scale = Math.min(1, room / (rest.bottom - rest.top));
  const away = side === 'above' ? -1 : 1;
  const y = (away * inner) / 2 - ((rest.top + rest.bottom) / 2) * scale;
  const half = ((rest.right - rest.left) / 2) * scale;
  const x = -((rest.left + rest.right) / 2) * scale;
  // Away from the staff a whole rest still hangs from a line, and a half rest stands on one: else nobody could tell them apart.
  const ledger = value > 2 ? [] : [line(-half - 0.5, y, half + 0.5, y, 0.2)];
  return {
    row: rhythmRow(side),
    left: half + 0.6,
    right: half + 0.6 + dots * dotStep,
    items: [
      { kind: 'group', x, y, items: [rest.item], scale },
      ...ledger,
      ...dotsBehind(half, (away * inner) / 2 - 0.6, dots),
    ],
    height: stem + beyond,
    signs: ['stop-all'],
  };
}

/** White between a rest and the beam over it. Unit: mm. */
const REST_CLEARANCE_MM = 0.2;

function dotsBehind(half: number, y: number, count: number): readonly Item[] {
  const { dotStep, dotRadius } = SIZES.rhythm;
  return Array.from(
    { length: count },
    (_, index): Item => ({ kind: 'circle', x: half + 0.7 + index * dotStep, y, radius: dotRadius, ink: 'strong' }),
  );
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
