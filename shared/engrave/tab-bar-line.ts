import type { BarSignText } from '../lesson/syntax/statement.ts';
import type { Meter } from '../theory/meter.ts';
import { group, type Item, line } from './drawing.ts';
import { SIZES } from './sizes.ts';
import type { Piece, Staff } from './tab-piece.ts';
import { type MusicSignName, sizedSign } from './type/music-sign.ts';

const THIN = SIZES.barLineThickness;
const HEAVY = SIZES.heavyLineThickness;
/** From the middle of a thin line to the edge of the heavy one, and from a line to the dots. Unit: mm. */
const BESIDE = 0.75;
const DOTS = 1.35;

/** What stands between two bars: the end of the one before, the start of the next, or both. */
export interface Boundary {
  readonly closes?: BarSignText;
  readonly opens?: BarSignText;
  /** True after the last bar of the music. */
  readonly last: boolean;
}

/** A bar line with its repeat dots. A double line at the very end of the music gets its second line heavy. */
export function barLinePiece(staff: Staff, { closes, opens, last }: Boundary): Piece {
  const ends = closes === ':|' || closes === ':|:' || opens === ':|' || opens === ':|:';
  const begins = closes === '|:' || closes === ':|:' || opens === '|:' || opens === ':|:';
  const double = closes === '||' || opens === '||';
  const upright = (x: number, thickness: number): Item => line(x, -THIN / 2, x, staff.height + THIN / 2, thickness);
  if (ends && begins) {
    const items = [
      upright(-HEAVY / 2 - BESIDE, THIN),
      upright(0, HEAVY),
      upright(HEAVY / 2 + BESIDE, THIN),
      ...dots(staff, -HEAVY / 2 - BESIDE - DOTS),
      ...dots(staff, HEAVY / 2 + BESIDE + DOTS),
    ];
    const reach = HEAVY / 2 + BESIDE + DOTS + 0.45;
    return { row: 'staff', left: reach, right: reach, items };
  }
  if (ends) {
    const items = [...dots(staff, -HEAVY - BESIDE - DOTS), upright(-HEAVY - BESIDE, THIN), upright(-HEAVY / 2, HEAVY)];
    return { row: 'staff', left: HEAVY + BESIDE + DOTS + 0.45, right: 0, items };
  }
  if (begins) {
    const items = [upright(HEAVY / 2, HEAVY), upright(HEAVY + BESIDE, THIN), ...dots(staff, HEAVY + BESIDE + DOTS)];
    return { row: 'staff', left: 0, right: HEAVY + BESIDE + DOTS + 0.45, items };
  }
  if (double && last)
    return {
      row: 'staff',
      left: HEAVY + BESIDE,
      right: 0,
      items: [upright(-HEAVY - BESIDE, THIN), upright(-HEAVY / 2, HEAVY)],
    };
  if (double) return { row: 'staff', left: 1.1, right: 0, items: [upright(-1, THIN), upright(-THIN / 2, THIN)] };
  return { row: 'staff', left: THIN, right: 0, items: [upright(-THIN / 2, THIN)] };
}

/** Two dots, as near to the middle of the staff as two spaces of it allow. */
function dots(staff: Staff, x: number): readonly Item[] {
  const spaces = staff.stringCount - 1;
  const upper = Math.floor((spaces - 1) / 2) + (spaces % 2 === 0 ? 0 : -1);
  const at = [Math.max(0, upper), Math.min(spaces - 1, spaces % 2 === 0 ? upper + 1 : upper + 2)];
  return at.map(
    (space): Item => ({ kind: 'circle', x, y: (space + 0.5) * SIZES.stringGap, radius: 0.45, ink: 'strong' }),
  );
}

/** Between the two figures of a meter, so that their heavy strokes do not run together. Unit: mm. */
const METER_GAP = 0.7;

/** The two figures of a meter, one over the other, each as high as half the staff or the size that reads well. */
export function meterPiece(staff: Staff, meter: Meter): Piece {
  const space = Math.min(SIZES.meterSpace, (staff.height - METER_GAP) / 4);
  const middle = staff.height / 2;
  const upper = figures(meter.counts, space, middle - space - METER_GAP / 2);
  const lower = figures(meter.unit, space, middle + space + METER_GAP / 2);
  const half = Math.max(upper.width, lower.width) / 2;
  return {
    row: 'staff',
    left: half + 0.3,
    right: half + 0.3,
    items: [...upper.items, ...lower.items],
  };
}

/** Figures of the music face by their digit. */
const FIGURES: readonly MusicSignName[] = [
  'timeSig0',
  'timeSig1',
  'timeSig2',
  'timeSig3',
  'timeSig4',
  'timeSig5',
  'timeSig6',
  'timeSig7',
  'timeSig8',
  'timeSig9',
];

/** A number in figures of the music face, its middle at `y`. */
function figures(value: number, space: number, y: number): { readonly items: readonly Item[]; readonly width: number } {
  const signs = [...String(value)]
    .map((digit) => FIGURES[Number(digit)])
    .filter((name) => name !== undefined)
    .map((name) => sizedSign(name, space));
  const width = signs.reduce((sum, sign) => sum + sign.advance, 0);
  let x = -width / 2;
  const items = signs.map((sign) => {
    const item = group(x, y, [sign.item]);
    x += sign.advance;
    return item;
  });
  return { items, width };
}

/** A slanting stroke between two dots: play the bar before again. */
export function sameBarPiece(staff: Staff): Piece {
  const sign = sizedSign('repeat1Bar', SAME_BAR_SPACE);
  const half = (sign.right - sign.left) / 2;
  const y = staff.height / 2 - (sign.top + sign.bottom) / 2;
  const items = [group(-(sign.left + sign.right) / 2, y, [sign.item])];
  return { row: 'staff', left: half + 0.2, right: half + 0.2, items, signs: ['same-bar'] };
}

/** Space between the lines of the staff that the sign of a repeated bar is drawn for. Unit: mm. */
const SAME_BAR_SPACE = 1.9;
