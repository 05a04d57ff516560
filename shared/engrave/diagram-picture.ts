import { type DiagramRequest, drawDiagram, headerOf } from './chord-diagram.ts';
import { type Drawing, group, type Item } from './drawing.ts';
import { PX_PER_MM, SIZES } from './sizes.ts';
import { svgOf } from './svg.ts';

/** A picture for places that follow no theme. The same fields as an answer's picture. */
export interface DiagramPicture {
  readonly svg: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly alternative: string;
}

/** How large a millimetre is drawn in a hover: a little over life size, for a glance. */
const HOVER_SCALE = 1.3;

/** White between drawing and frame. Unit: mm. */
const MARGIN_MM = 2.2;

/** Diagrams in one line of a picture; more would make a hover wider than its text. */
const MOST_PER_LINE = 5;

/** One or several diagrams on their own paper. Several go side by side, five to a line, each with its own name and caption. */
export function diagramPicture(...requests: readonly DiagramRequest[]): DiagramPicture {
  const header = headerOf(requests);
  const drawings = requests.map((request) => drawDiagram(request, header));
  const gap = SIZES.diagramGap;
  const items: Item[] = [];
  let top = 0;
  let right = 0;
  for (let first = 0; first < drawings.length; first += MOST_PER_LINE) {
    const line = drawings.slice(first, first + MOST_PER_LINE);
    let left = 0;
    for (const drawing of line) {
      items.push(group(left, top, drawing.items));
      left += drawing.width + gap;
    }
    right = Math.max(right, left - gap);
    top += Math.max(...line.map((drawing) => drawing.height)) + gap * 0.6;
  }
  const alternative = drawings.map((one) => one.alternative).join(' ');
  return pictureOf({ width: right, height: top - gap * 0.6, items, alternative, scale: 1 });
}

/** The drawing on paper with a margin, in the size of a hover. */
export function pictureOf({ width, height, items, alternative }: Drawing): DiagramPicture {
  const drawing: Drawing = {
    width: width + 2 * MARGIN_MM,
    height: height + MARGIN_MM * 1.6,
    items: [group(MARGIN_MM, MARGIN_MM, items)],
    alternative,
    scale: HOVER_SCALE,
  };
  return {
    svg: svgOf(drawing, 'fixed'),
    widthPx: Math.round(drawing.width * HOVER_SCALE * PX_PER_MM),
    heightPx: Math.round(drawing.height * HOVER_SCALE * PX_PER_MM),
    alternative: drawing.alternative,
  };
}
