import { type DiagramRequest, drawDiagram, headerOf } from './chord-diagram.ts';
import { type Drawing, group, type Item } from './drawing.ts';
import { SIZES } from './sizes.ts';

/** A diagram in a row, and the place in the lesson that it stands for. */
export interface RowMember {
  readonly request: DiagramRequest;
  readonly place?: number;
}

/**
 * Diagrams side by side, broken into as many lines as the width needs. Their grids stand on one height and, as far as the
 * width allows, equally far apart, however wide the names are.
 */
export function drawDiagramRow(members: readonly RowMember[], widthMm: number): Drawing {
  const header = headerOf(members.map((member) => member.request));
  const drawn = members.map((member) => ({ ...member, drawing: drawDiagram(member.request, header) }));
  const gap = SIZES.diagramGap;
  const cell = Math.max(...drawn.map(({ drawing }) => drawing.width), 1) + gap;
  const perLine = Math.max(1, Math.floor((widthMm + gap) / cell));
  const items: Item[] = [];
  let top = 0;
  for (let first = 0; first < drawn.length; first += perLine) {
    const line = drawn.slice(first, first + perLine);
    line.forEach(({ drawing, place }, index) => {
      const area = { x: 0, y: 0, width: drawing.width, height: drawing.height };
      const mark = { alternative: drawing.alternative, area, ...(place === undefined ? {} : { place }) };
      items.push(group(index * cell + (cell - gap - drawing.width) / 2, top, drawing.items, mark));
    });
    top += Math.max(...line.map(({ drawing }) => drawing.height)) + (first + perLine < drawn.length ? gap * 0.7 : 0);
  }
  const width = Math.min(perLine, drawn.length) * cell - gap;
  const alternative = members.length === 1 ? 'Chord diagram' : `${members.length} chord diagrams`;
  return {
    width: Math.max(width, 1),
    height: top,
    items,
    alternative,
    scale: Math.min(1, widthMm / Math.max(width, 1)),
  };
}
