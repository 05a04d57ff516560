import { drawFingers, type FingeredShape } from './diagram-fingers.ts';
import { type Drawing, type Item, line } from './drawing.ts';
import { cross } from './outlines.ts';
import { SIZES } from './sizes.ts';
import { FIGURE_HEIGHT_EM, textWidth } from './text-width.ts';

/** Signs of diagrams that a legend may have to explain. */
export type DiagramSign =
  | 'muted-string'
  | 'open-string'
  | 'position'
  | 'usual-shape'
  | 'barre'
  | 'given-finger'
  | 'suggested-finger';

const D = SIZES.diagram;
const STRINGS = 3;

/** A corner of a chord diagram as large as on the sheet, with the sign in it. The usual shape is marked by words alone. */
export function diagramSample(sign: DiagramSign): Drawing | undefined {
  switch (sign) {
    case 'open-string':
      return corner([
        { kind: 'circle', x: D.stringGap, y: SIGN_LEVEL, radius: D.signRadius, ink: 'strong', thickness: 0.28 },
      ]);
    case 'muted-string':
      return corner([cross(D.stringGap, SIGN_LEVEL, D.signRadius * 0.92, 0.34, 'strong')]);
    case 'position':
      return positionCorner();
    case 'barre':
      return corner(fingersOn({ shape: [1, 1, 1], fingers: [1, 1, 1] }));
    case 'given-finger':
      return corner(fingersOn({ shape: [0, 1, 0], fingers: [0, 3, 0] }));
    case 'suggested-finger': {
      const presses = [{ finger: 3, fret: 1, from: 1, to: 1, sounding: 1 }] as const;
      return corner(fingersOn({ shape: [0, 1, 0], fingering: { fingers: [undefined, 3, undefined], presses } }));
    }
    case 'usual-shape':
      return undefined;
  }
}

/** Above the nut, which lies on 0. */
const SIGN_LEVEL = -D.nutThickness - 0.75 - D.signRadius;

function fingersOn(fingered: FingeredShape): readonly Item[] {
  return drawFingers({ x: (index) => index * D.stringGap, y: (fret) => (fret - 0.5) * D.fretGap }, fingered);
}

/** The first fret with the nut over it. */
function corner(items: readonly Item[]): Drawing {
  const width = (STRINGS - 1) * D.stringGap;
  const nut: Item = {
    kind: 'rectangle',
    x: -D.stringThickness / 2,
    y: -D.nutThickness,
    width: width + D.stringThickness,
    height: D.nutThickness,
    rounding: 0,
    ink: 'strong',
  };
  return around([...gridItems(0), nut, ...items], 0);
}

/** A fret up the neck, with its number. */
function positionCorner(): Drawing {
  const size = D.position;
  const number: Item = {
    kind: 'text',
    x: -D.dotRadius - 0.5,
    y: D.fretGap / 2 + (size * FIGURE_HEIGHT_EM) / 2,
    text: '7',
    size,
    anchor: 'end',
    role: 'number',
    ink: 'strong',
  };
  const first = line(
    -D.stringThickness / 2,
    0,
    (STRINGS - 1) * D.stringGap + D.stringThickness / 2,
    0,
    D.fretThickness,
    'soft',
  );
  return around([...gridItems(0.9), first, number], textWidth('7', 'number', size));
}

/** Strings and the fret under the first row. Strings that go on up the neck rise over the first line. */
function gridItems(above: number): readonly Item[] {
  const width = (STRINGS - 1) * D.stringGap;
  const half = D.stringThickness / 2;
  const strings = Array.from({ length: STRINGS }, (_, index) =>
    line(index * D.stringGap, -above, index * D.stringGap, D.fretGap + 0.9, D.stringThickness, 'soft'),
  );
  return [line(-half, D.fretGap, width + half, D.fretGap, D.fretThickness, 'soft'), ...strings];
}

function around(items: readonly Item[], roomLeft: number): Drawing {
  const left = D.dotRadius + 0.5 + roomLeft;
  const top = -SIGN_LEVEL + D.signRadius + 0.2;
  return {
    width: left + (STRINGS - 1) * D.stringGap + D.dotRadius + 0.2,
    height: top + D.fretGap + 1.1,
    items: [{ kind: 'group', x: left, y: top, items }],
    alternative: '',
    scale: 1,
  };
}
