import type { Box, Item } from '../../shared/engrave/drawing.ts';
import { textBox } from '../../shared/engrave/text-width.ts';

/** What an item covers, strokes included; undefined where it draws nothing. */
export function extentOf(item: Item): Box | undefined {
  switch (item.kind) {
    case 'text':
      return textBox(item);
    case 'line': {
      const half = item.thickness / 2;
      return fromCorners(
        Math.min(item.x1, item.x2) - half,
        Math.min(item.y1, item.y2) - half,
        Math.max(item.x1, item.x2) + half,
        Math.max(item.y1, item.y2) + half,
      );
    }
    case 'rectangle': {
      const half = (item.thickness ?? 0) / 2;
      return fromCorners(item.x - half, item.y - half, item.x + item.width + half, item.y + item.height + half);
    }
    case 'circle': {
      const reach = item.radius + (item.thickness ?? 0) / 2;
      return fromCorners(item.x - reach, item.y - reach, item.x + reach, item.y + reach);
    }
    case 'path': {
      // A curve stays within the hull of its points.
      const points = item.steps.flatMap((step) => {
        const figures = step.slice(1).map(Number);
        return figures.flatMap((x, index) => (index % 2 === 0 ? [{ x, y: figures[index + 1] ?? 0 }] : []));
      });
      if (points.length === 0) return undefined;
      const half = (item.thickness ?? 0) / 2;
      const xs = points.map(({ x }) => x);
      const ys = points.map(({ y }) => y);
      return fromCorners(
        Math.min(...xs) - half,
        Math.min(...ys) - half,
        Math.max(...xs) + half,
        Math.max(...ys) + half,
      );
    }
    case 'group': {
      const inner = item.items.flatMap((one) => extentOf(one) ?? []);
      if (inner.length === 0) return undefined;
      const scale = item.scale ?? 1;
      return fromCorners(
        item.x + scale * Math.min(...inner.map(({ x }) => x)),
        item.y + scale * Math.min(...inner.map(({ y }) => y)),
        item.x + scale * Math.max(...inner.map(({ x, width }) => x + width)),
        item.y + scale * Math.max(...inner.map(({ y, height }) => y + height)),
      );
    }
  }
}

/** All texts under an item, with the size that they have on the sheet. */
export function textsUnder(
  item: Item,
  scale = 1,
): readonly { readonly text: string; readonly role: string; readonly size: number; readonly own: number }[] {
  if (item.kind === 'text') return [{ text: item.text, role: item.role, size: item.size * scale, own: item.size }];
  return item.kind === 'group' ? item.items.flatMap((inner) => textsUnder(inner, scale * (item.scale ?? 1))) : [];
}

function fromCorners(left: number, top: number, right: number, bottom: number): Box {
  return { x: left, y: top, width: right - left, height: bottom - top };
}
