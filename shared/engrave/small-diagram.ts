import type { Shape } from '../neck/shape.ts';
import { barresOf, type FingeredShape } from './diagram-fingers.ts';
import { type DiagramWindow, windowOf } from './diagram-window.ts';
import { type Item, line, type PathStep } from './drawing.ts';
import { SIZES } from './sizes.ts';
import { FIGURE_HEIGHT_EM, textWidth } from './text-width.ts';

// A reminder over the staff where a chord comes in: where the dots are, and no more. Finger numbers would be too small to read there;
// they stand in the large diagram of the chord.

const S = SIZES.smallDiagram;

export interface SmallDiagram {
  /** Counted from the middle of the grid and from its foot. */
  readonly items: readonly Item[];
  readonly left: number;
  readonly right: number;
  readonly height: number;
}

/** The shape as dots on a small grid, mirrored for a left-handed reader. */
export function smallDiagram(fingered: FingeredShape, leftHanded: boolean): SmallDiagram {
  const { shape } = fingered;
  const window = windowOf(shape);
  const last = shape.length - 1;
  const width = last * S.stringGap;
  const top = -window.rows * S.fretGap;
  const x = (index: number): number => -width / 2 + (leftHanded ? last - index : index) * S.stringGap;
  const y = (fret: number): number => top + (fret - window.firstFret + 0.5) * S.fretGap;
  const items: Item[] = [gridOf(window, shape.length, width, top), headOf(window, width, top)];
  for (const { fret, from, to } of barresOf(fingered))
    items.push(line(x(from), y(fret), x(to), y(fret), S.barreThickness));
  shape.forEach((fret, index) => {
    if (fret !== 'muted' && fret > 0)
      items.push({ kind: 'circle', x: x(index), y: y(fret), radius: S.dotRadius, ink: 'strong' });
  });
  items.push(...signsOf(shape, x, top - S.nutThickness - 0.35 - S.signRadius));
  return {
    items,
    left: width / 2 + positionRoom(window),
    right: width / 2 + S.dotRadius,
    height: -top + S.nutThickness + 2 * S.signRadius + 0.9,
  };
}

/** Frets and strings as one path. Away from the nut the neck goes on upwards, and the strings show it. */
function gridOf(window: DiagramWindow, strings: number, width: number, top: number): Item {
  const steps: PathStep[] = [];
  const over = window.firstFret === 1 ? 0 : 0.6;
  for (let row = window.firstFret === 1 ? 1 : 0; row <= window.rows; row += 1) {
    const y = top + row * S.fretGap;
    steps.push(['M', -width / 2, y], ['L', width / 2, y]);
  }
  for (let index = 0; index < strings; index += 1) {
    const x = -width / 2 + index * S.stringGap;
    steps.push(['M', x, top - over], ['L', x, 0]);
  }
  return { kind: 'path', steps, ink: 'soft', thickness: S.lineThickness };
}

/** The nut, or the number of the first fret where the grid begins above it. */
function headOf({ firstFret }: DiagramWindow, width: number, top: number): Item {
  if (firstFret === 1) {
    const half = S.lineThickness / 2;
    const nut = { x: -width / 2 - half, y: top - S.nutThickness, width: width + 2 * half, height: S.nutThickness };
    return { kind: 'rectangle', ...nut, rounding: 0, ink: 'strong' };
  }
  const y = top + 0.5 * S.fretGap + (S.position * FIGURE_HEIGHT_EM) / 2;
  const x = -width / 2 - S.dotRadius - 0.35;
  return {
    kind: 'text',
    x,
    y,
    text: String(firstFret),
    size: S.position,
    anchor: 'end',
    role: 'number',
    ink: 'strong',
  };
}

function positionRoom({ firstFret }: DiagramWindow): number {
  return S.dotRadius + (firstFret === 1 ? 0 : 0.35 + textWidth(String(firstFret), 'number', S.position));
}

/** Rings over open strings, crosses over strings that are not played. */
function signsOf(shape: Shape, x: (index: number) => number, y: number): readonly Item[] {
  const r = S.signRadius;
  return shape.flatMap((fret, index): readonly Item[] => {
    if (fret === 0) return [{ kind: 'circle', x: x(index), y, radius: r, ink: 'strong', thickness: 0.2 }];
    if (fret !== 'muted') return [];
    const steps: readonly PathStep[] = [
      ['M', x(index) - r, y - r],
      ['L', x(index) + r, y + r],
      ['M', x(index) - r, y + r],
      ['L', x(index) + r, y - r],
    ];
    return [{ kind: 'path', steps, ink: 'strong', thickness: 0.24 }];
  });
}
