import { drawDiagram } from '../../../shared/engrave/chord-diagram.ts';
import type { Drawing } from '../../../shared/engrave/drawing.ts';
import { drawingsOf } from '../collisions/drawings-of-lesson.ts';
import { type Inked, inkedOf } from '../collisions/inked.ts';

/** A page of A4 between its margins. Unit: mm. */
const GOLDEN_WIDTH_MM = 186;

/**
 * What is drawn of a lesson's music and chords, one line for each item: what it is, where, how large. Places are rounded to tenths
 * of a millimetre, so that the file changes when a reader could see it.
 */
export function goldenText(lesson: string): string {
  const { systems, diagrams } = drawingsOf(lesson, GOLDEN_WIDTH_MM);
  const sections = [
    ...systems.map((drawing, index) => sectionOf(`system ${index + 1}`, drawing)),
    ...diagrams.map((request, index) => sectionOf(`diagram ${index + 1}`, drawDiagram(request))),
  ];
  return `${sections.join('\n\n')}\n`;
}

function sectionOf(name: string, drawing: Drawing): string {
  const head = `== ${name}: ${drawing.alternative} | size ${round(drawing.width)} ${round(drawing.height)}, scale ${round(drawing.scale)}`;
  const lines: string[] = [head];
  let said: string | undefined;
  for (const inked of inkedOf(drawing)) {
    const spoken = inked.groups.find((group) => group.mark !== undefined)?.mark?.alternative;
    if (spoken !== undefined && spoken !== said) lines.push(`say ${spoken}`);
    said = spoken;
    lines.push(lineOf(inked));
  }
  return lines.join('\n');
}

function lineOf({ item, box, origin: [x, y], scale }: Inked): string {
  const place = (px: number, py: number): string => `at ${round(x + px * scale)} ${round(y + py * scale)}`;
  const size = `size ${round(box.width)} ${round(box.height)}`;
  const thickness = 'thickness' in item && item.thickness !== undefined ? ` ${item.thickness}` : '';
  const dashed = 'dashed' in item && item.dashed === true ? ' dashed' : '';
  const look = `${item.ink}${thickness}${dashed}`;
  switch (item.kind) {
    case 'text': {
      const bold = item.bold === true ? ' bold' : '';
      return `${item.role} “${item.text}” ${look} ${round(item.size * scale)}${bold} ${item.anchor} ${place(item.x, item.y)}`;
    }
    case 'circle':
      return `circle ${look} ${place(item.x, item.y)} size ${round(item.radius * scale)}`;
    case 'line':
    case 'rectangle':
      return `${item.kind} ${look} at ${round(box.x)} ${round(box.y)} ${size}`;
    case 'path':
      return `path ${look} of ${item.steps.length} at ${round(box.x)} ${round(box.y)} ${size}`;
  }
}

function round(value: number): string {
  return String(Math.round(value * 10) / 10 + 0);
}
