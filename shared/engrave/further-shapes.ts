import { printShape } from '../neck/shape.ts';
import { type DiagramRequest, drawDiagram, gridTop, headerOf } from './chord-diagram.ts';
import type { FingeredShape } from './diagram-fingers.ts';
import { type DiagramPicture, pictureOf } from './diagram-picture.ts';
import { windowOf } from './diagram-window.ts';
import { group, type Item, line } from './drawing.ts';
import { SIZES } from './sizes.ts';
import { textWidth } from './text-width.ts';

const D = SIZES.diagram;

/** A further shape against the chord itself: small, yet its dots can be counted at a glance. */
const SCALE = 0.66;

/** Between small diagrams, and on both sides of the line that parts them from the chord. Unit: mm. */
const GAP = 1.5;
const ROW_GAP = 2.2;
const PARTING = 2.6;

/** The frets in figures under a small diagram, and the white over them. Unit: mm. */
const FIGURES = 2.4;
const OVER_FIGURES = 3;

/** Wider than this a hover may have to scroll sideways: then the small diagrams stand in two rows. Unit: mm. */
const WIDEST = 98;

/** A chord's diagram and, small beside it, further shapes, each with its frets in figures under it. */
export function pictureWithFurther(chord: DiagramRequest, further: readonly FingeredShape[]): DiagramPicture {
  const header = headerOf([chord]);
  const drawing = drawDiagram(chord, header);
  const small = further.map(drawSmall);
  const beside = drawing.width + 2 * PARTING;
  const inOne = blockOf(small, small.length);
  const block = beside + inOne.width <= WIDEST ? inOne : blockOf(small, Math.ceil(small.length / 2));
  // The nuts of a single row stand at the height of the chord's own.
  const top = block === inOne ? gridTop(header) - gridTop({ name: false, caption: false }) * SCALE : 0;
  const height = Math.max(drawing.height, top + block.height);
  const parting = drawing.width + PARTING;
  return pictureOf({
    width: beside + block.width,
    height,
    items: [
      group(0, 0, drawing.items),
      line(parting, 1, parting, height - 1, D.fretThickness, 'faint'),
      group(beside, top, block.items),
    ],
    alternative: `${drawing.alternative} Further shapes: ${further.map(({ shape }) => printShape(shape)).join(', ')}.`,
    scale: 1,
  });
}

/** A small diagram, counted from the middle of its grid: strings stand evenly, whatever stands beside them. */
interface Small {
  readonly items: readonly Item[];
  readonly left: number;
  readonly right: number;
  readonly height: number;
}

function drawSmall(further: FingeredShape): Small {
  const { shape } = further;
  const diagram = drawDiagram({ ...further, leftHanded: false, numbered: false });
  const frets = printShape(shape);
  const half = (((shape.length - 1) * D.stringGap) / 2 + D.dotRadius) * SCALE;
  const figures = textWidth(frets, 'number', FIGURES) / 2;
  const left = Math.max(windowOf(shape).firstFret === 1 ? half : (diagram.width / 2) * SCALE, figures);
  const bottom = (diagram.height - 0.9) * SCALE;
  return {
    items: [
      { kind: 'group', x: (-diagram.width / 2) * SCALE, y: 0, items: diagram.items, scale: SCALE },
      {
        kind: 'text',
        x: 0,
        y: bottom + OVER_FIGURES,
        text: frets,
        size: FIGURES,
        anchor: 'middle',
        role: 'number',
        ink: 'strong',
      },
    ],
    left,
    right: Math.max(half, figures),
    height: bottom + OVER_FIGURES + FIGURES * 0.3,
  };
}

/** Small diagrams in rows; those of one column stand under each other. */
function blockOf(small: readonly Small[], perRow: number): { items: readonly Item[]; width: number; height: number } {
  const items: Item[] = [];
  let x = 0;
  for (let column = 0; column < perRow; column++) {
    const stacked = small.filter((_, index) => index % perRow === column);
    x += Math.max(...stacked.map(({ left }) => left));
    let y = 0;
    for (const one of stacked) {
      items.push(group(x, y, one.items));
      y += one.height + ROW_GAP;
    }
    x += Math.max(...stacked.map(({ right }) => right)) + GAP;
  }
  const heights = small.map(({ height }) => height);
  const rows = Math.ceil(small.length / Math.max(1, perRow));
  return { items, width: x - GAP, height: Math.max(...heights) * rows + ROW_GAP * (rows - 1) };
}
