import { type DiagramRequest, drawDiagram, headerOf } from './chord-diagram.ts';
import { type Drawing, group } from './drawing.ts';
import { SIZES } from './sizes.ts';

/**
 * Diagrams side by side, one drawing for each line that the width needs. Their grids stand on one height and equally far apart,
 * from line to line too, however wide the names are. Each diagram is a place, counted from the start of its line.
 */
export function drawDiagramLines(
  requests: readonly DiagramRequest[],
  widthMm: number,
  mostPerLine: number,
): readonly Drawing[] {
  const header = headerOf(requests);
  const drawn = requests.map((request) => drawDiagram(request, header));
  const gap = SIZES.diagramGap;
  const cell = Math.max(...drawn.map((drawing) => drawing.width), 1) + gap;
  const perLine = Math.min(mostPerLine, Math.max(1, Math.floor((widthMm + gap) / cell)));
  const lines: Drawing[] = [];
  for (let first = 0; first < drawn.length; first += perLine) {
    const line = drawn.slice(first, first + perLine);
    const items = line.map((drawing, place) => {
      const held = requests[first + place]?.held;
      const area = { x: 0, y: 0, width: drawing.width, height: drawing.height };
      return group(place * cell + (cell - gap - drawing.width) / 2, 0, drawing.items, {
        place,
        alternative: drawing.alternative,
        area,
        ...(held === undefined ? {} : { played: { kind: 'diagram', held } as const }),
      });
    });
    const width = line.length * cell - gap;
    const height = Math.max(...line.map((drawing) => drawing.height));
    const alternative = line.length === 1 ? 'Chord diagram' : `${line.length} chord diagrams`;
    lines.push({ width, height, items, alternative, scale: Math.min(1, widthMm / width) });
  }
  return lines;
}
