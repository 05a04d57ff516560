import type { Box, Drawing, Item, TextItem } from '../../shared/engrave/drawing.ts';
import { textBox } from '../../shared/engrave/text-width.ts';

/** A text of a drawing and the area it takes up, counted from the drawing's corner. `owner` is shared by parts of one name. */
export interface PlacedText {
  readonly item: TextItem;
  readonly box: Box;
  readonly owner: object;
}

/** Every text of a drawing with its place. */
export function textsOf(drawing: Drawing): readonly PlacedText[] {
  return drawing.items.flatMap((item) => walk(item, 0, 0, item));
}

function walk(item: Item, x: number, y: number, owner: object): readonly PlacedText[] {
  if (item.kind === 'text') {
    const box = textBox(item);
    return [{ item, box: { ...box, x: box.x + x, y: box.y + y }, owner }];
  }
  if (item.kind !== 'group') return [];
  return item.items.flatMap((inner) => walk(inner, x + item.x, y + item.y, inner.kind === 'text' ? item : inner));
}

/** Pairs of texts whose areas share more than a hair, parts of one name left out. */
export function collisions(drawing: Drawing): readonly string[] {
  const texts = textsOf(drawing);
  const found: string[] = [];
  texts.forEach((a, index) => {
    for (const b of texts.slice(index + 1)) {
      const oneName = a.owner === b.owner && a.item.role === 'name' && b.item.role === 'name';
      if (!oneName && overlap(a.box, b.box)) found.push(`${describe(a)} and ${describe(b)}`);
    }
  });
  return found;
}

const HAIR_MM = 0.05;

function overlap(a: Box, b: Box): boolean {
  const across = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const down = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return across > HAIR_MM && down > HAIR_MM;
}

function describe({ item, box }: PlacedText): string {
  return `${item.role} ${item.text} at ${box.x.toFixed(1)},${box.y.toFixed(1)}`;
}
