import type { Box, Drawing, GroupItem, Item, PathItem, PathStep } from '../../../shared/engrave/drawing.ts';
import { textBox } from '../../../shared/engrave/text-width.ts';

/** A corner of a shape, in mm from the drawing's corner. */
export type Point = readonly [x: number, y: number];

/** A convex area and how far it reaches. */
export interface Area {
  readonly points: readonly Point[];
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** A rectangle whose sides run along and down the page. */
  readonly upright: boolean;
}

/** An item as ink on the page: convex areas that together cover it, and where it belongs. */
export interface Inked {
  readonly item: Exclude<Item, GroupItem>;
  /** From the outermost group to the innermost. */
  readonly groups: readonly GroupItem[];
  /** Where the point is that the item's own measures count from, and how large they are drawn. */
  readonly origin: Point;
  readonly scale: number;
  readonly areas: readonly Area[];
  readonly box: Box;
}

/**
 * Everything that a drawing paints. Texts take the area of their letters, strokes their thickness; curves are cut into short straight
 * pieces, and a filled outline counts with its convex hull.
 */
export function inkedOf(drawing: Pick<Drawing, 'items'>): readonly Inked[] {
  const found: Inked[] = [];
  const walk = (items: readonly Item[], x: number, y: number, scale: number, groups: readonly GroupItem[]): void => {
    for (const item of items) {
      if (item.kind === 'group') {
        walk(item.items, x + item.x * scale, y + item.y * scale, scale * (item.scale ?? 1), [...groups, item]);
        continue;
      }
      const areas = areasOf(item).map((points) => areaOf(points, x, y, scale));
      if (areas.length > 0) found.push({ item, groups, origin: [x, y], scale, areas, box: boxAround(areas) });
    }
  };
  walk(drawing.items, 0, 0, 1, []);
  return found;
}

/** Moves points to their place on the drawing and says how far they reach. */
function areaOf(points: readonly Point[], x: number, y: number, scale: number): Area {
  const moved: Point[] = [];
  let [left, top, right, bottom] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, -1e9, -1e9];
  for (const [px, py] of points) {
    const mx = x + px * scale;
    const my = y + py * scale;
    moved.push([mx, my]);
    if (mx < left) left = mx;
    if (mx > right) right = mx;
    if (my < top) top = my;
    if (my > bottom) bottom = my;
  }
  const upright = moved.length === 4 && moved.every(([mx, my]) => isOneOf(mx, left, right) && isOneOf(my, top, bottom));
  return { points: moved, left, right, top, bottom, upright };
}

function isOneOf(value: number, a: number, b: number): boolean {
  return Math.abs(value - a) < 1e-9 || Math.abs(value - b) < 1e-9;
}

function boxAround(areas: readonly Area[]): Box {
  let [left, top, right, bottom] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, -1e9, -1e9];
  for (const area of areas) {
    left = Math.min(left, area.left);
    top = Math.min(top, area.top);
    right = Math.max(right, area.right);
    bottom = Math.max(bottom, area.bottom);
  }
  return { x: left, y: top, width: right - left, height: bottom - top };
}

function areasOf(item: Exclude<Item, GroupItem>): readonly (readonly Point[])[] {
  switch (item.kind) {
    case 'line':
      return strokeOf(
        [
          [item.x1, item.y1],
          [item.x2, item.y2],
        ],
        item.thickness,
      );
    case 'rectangle': {
      const { x, y, width, height, rounding, thickness } = item;
      const outline = roundedOutline(x, y, width, height, rounding);
      return thickness === undefined ? [outline] : strokeOf([...outline, ...outline.slice(0, 1)], thickness);
    }
    case 'circle': {
      const around = Array.from({ length: 17 }, (_, index): Point => {
        const angle = (index / 16) * 2 * Math.PI;
        return [item.x + item.radius * Math.cos(angle), item.y + item.radius * Math.sin(angle)];
      });
      return item.thickness === undefined ? [around.slice(1)] : strokeOf(around, item.thickness);
    }
    case 'path':
      return pathAreas(item);
    case 'text': {
      const { x, y, width, height } = textBox(item);
      return width === 0
        ? []
        : [
            [
              [x, y],
              [x + width, y],
              [x + width, y + height],
              [x, y + height],
            ],
          ];
    }
  }
}

function pathAreas({ steps, thickness }: PathItem): readonly (readonly Point[])[] {
  const runs = runsOf(steps);
  if (thickness !== undefined) return runs.flatMap((run) => strokeOf(run, thickness));
  return runs.filter((run) => run.length > 2).map(hullOf);
}

/** Each part of a path that is drawn without lifting the pen, curves cut into straight pieces. */
function runsOf(steps: readonly PathStep[]): readonly (readonly Point[])[] {
  const runs: Point[][] = [];
  let run: Point[] = [];
  for (const step of steps) {
    const [lastX = 0, lastY = 0] = run.at(-1) ?? [];
    if (step[0] === 'M') {
      run = [[step[1], step[2]]];
      runs.push(run);
    } else if (step[0] === 'L') run.push([step[1], step[2]]);
    else if (step[0] === 'Z') run.push(...run.slice(0, 1));
    else if (step[0] === 'C') {
      const [, x1, y1, x2, y2, x3, y3] = step;
      for (let part = 1; part <= CURVE_PARTS; part++) {
        const t = part / CURVE_PARTS;
        const u = 1 - t;
        const at = (a: number, b: number, c: number, d: number): number =>
          u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d;
        run.push([at(lastX, x1, x2, x3), at(lastY, y1, y2, y3)]);
      }
    }
  }
  return runs;
}

const CURVE_PARTS = 8;

/** Each straight piece of a line as the rectangle that its thickness makes of it. */
function strokeOf(points: readonly Point[], thickness: number): readonly (readonly Point[])[] {
  const half = thickness / 2;
  return points.slice(1).flatMap(([x2, y2], index): readonly (readonly Point[])[] => {
    const [x1, y1] = points[index] ?? [x2, y2];
    const length = Math.hypot(x2 - x1, y2 - y1);
    if (length === 0) return [];
    const nx = (-(y2 - y1) / length) * half;
    const ny = ((x2 - x1) / length) * half;
    return [
      [
        [x1 + nx, y1 + ny],
        [x2 + nx, y2 + ny],
        [x2 - nx, y2 - ny],
        [x1 - nx, y1 - ny],
      ],
    ];
  });
}

function roundedOutline(x: number, y: number, width: number, height: number, rounding: number): readonly Point[] {
  const r = Math.min(rounding, width / 2, height / 2);
  if (r === 0)
    return [
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ];
  const corners: readonly (readonly [number, number, number])[] = [
    [x + width - r, y + r, -90],
    [x + width - r, y + height - r, 0],
    [x + r, y + height - r, 90],
    [x + r, y + r, 180],
  ];
  return corners.flatMap(([cx, cy, from]) =>
    [0, 30, 60, 90].map((turn): Point => {
      const angle = ((from + turn) / 180) * Math.PI;
      return [cx + r * Math.cos(angle), cy + r * Math.sin(angle)];
    }),
  );
}

/** The convex hull, corner after corner. Source: Andrew's monotone chain. */
function hullOf(points: readonly Point[]): readonly Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (from: readonly Point[]): Point[] => {
    const chain: Point[] = [];
    for (const point of from) {
      for (;;) {
        const [a, b] = chain.slice(-2);
        if (a === undefined || b === undefined) break;
        if ((b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0]) > 0) break;
        chain.pop();
      }
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.toReversed())];
}
