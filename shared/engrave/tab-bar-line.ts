import type { BarSignText } from '../lesson/syntax/statement.ts';
import type { Meter } from '../theory/meter.ts';
import { type Item, line } from './drawing.ts';
import { SIZES } from './sizes.ts';
import { openAll, type Piece, type Staff } from './tab-piece.ts';
import { FIGURE_HEIGHT_EM, textWidth } from './text-width.ts';

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

/** The two figures of a meter, one over the other. */
export function meterPiece(staff: Staff, meter: Meter): Piece {
  const size = SIZES.meter;
  const half =
    Math.max(textWidth(String(meter.counts), 'number', size), textWidth(String(meter.unit), 'number', size)) / 2;
  const middle = staff.height / 2;
  const figure = (text: string, y: number): Item => ({
    kind: 'text',
    x: 0,
    y,
    text,
    size,
    anchor: 'middle',
    role: 'number',
    ink: 'strong',
    bold: true,
  });
  const items = [
    figure(String(meter.counts), middle - 0.45),
    figure(String(meter.unit), middle + 0.45 + size * FIGURE_HEIGHT_EM),
  ];
  return {
    row: 'staff',
    left: half * 1.06 + 0.3,
    right: half * 1.06 + 0.3,
    items,
    openings: openAll(staff, -half - 0.3, half + 0.3),
  };
}

/** A slanting stroke between two dots: play the bar before again. */
export function sameBarPiece(staff: Staff): Piece {
  const middle = staff.height / 2;
  const items: readonly Item[] = [
    {
      kind: 'path',
      steps: [['M', -2, middle + 1.8], ['L', -1, middle + 1.8], ['L', 2, middle - 1.8], ['L', 1, middle - 1.8], ['Z']],
      ink: 'strong',
    },
    { kind: 'circle', x: -1.5, y: middle - 1, radius: 0.5, ink: 'strong' },
    { kind: 'circle', x: 1.5, y: middle + 1, radius: 0.5, ink: 'strong' },
  ];
  return { row: 'staff', left: 2.2, right: 2.2, items, signs: ['same-bar'] };
}
