import type { Box, GroupItem, Ink, Item, PathStep, TextItem } from '../engrave/drawing.ts';
import { SIZES } from '../engrave/sizes.ts';
import { type FaceName, faceOf, faceWidth, textWidth } from '../engrave/text-width.ts';

// A drawing without groups and with two kinds of items only, where they stand on their paper: what files are written from.

/** A shape as its outline: filled, or drawn as a line where it has a thickness. */
export interface FlatPath {
  readonly kind: 'path';
  readonly steps: readonly PathStep[];
  readonly ink: Ink;
  readonly thickness?: number;
  /** A dash and the gap behind it. */
  readonly dash?: readonly number[];
}

/** Letters of one face and size. */
export interface FlatText {
  readonly kind: 'text';
  /** Where the first letter begins, on the baseline. */
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly size: number;
  readonly face: FaceName;
  readonly ink: Ink;
}

export type FlatItem = FlatPath | FlatText;

/** Where the origin of a group stands on the paper, and how large its items are drawn there. */
export interface Frame {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

export const WHOLE_PAPER: Frame = { x: 0, y: 0, scale: 1 };

export function frameWithin({ x, y, scale }: Frame, group: GroupItem): Frame {
  return { x: x + scale * group.x, y: y + scale * group.y, scale: scale * (group.scale ?? 1) };
}

export function boxWithin({ x, y, scale }: Frame, box: Box): Box {
  return { x: x + scale * box.x, y: y + scale * box.y, width: scale * box.width, height: scale * box.height };
}

/** All that an item draws, in the order in which it is painted. */
export function flatItems(item: Item, frame: Frame): readonly FlatItem[] {
  switch (item.kind) {
    case 'group': {
      const within = frameWithin(frame, item);
      return item.items.flatMap((inner) => flatItems(inner, within));
    }
    case 'text':
      return textsOf(item, frame);
    case 'line':
      return [
        path(
          [
            ['M', item.x1, item.y1],
            ['L', item.x2, item.y2],
          ],
          item,
          frame,
        ),
      ];
    case 'rectangle':
      return [path(rectangleSteps(item), item, frame)];
    case 'circle':
      return [
        path(
          roundedSteps(item.x - item.radius, item.y - item.radius, 2 * item.radius, 2 * item.radius, item.radius),
          item,
          frame,
        ),
      ];
    case 'path':
      return [path(item.steps, item, frame)];
  }
}

function path(
  steps: readonly PathStep[],
  { ink, thickness, dashed }: { readonly ink: Ink; readonly thickness?: number; readonly dashed?: boolean },
  { x, y, scale }: Frame,
): FlatPath {
  const moved = steps.map((step): PathStep => {
    switch (step[0]) {
      case 'Z':
        return step;
      case 'C': {
        const [, x1, y1, x2, y2, x3, y3] = step;
        return ['C', x + scale * x1, y + scale * y1, x + scale * x2, y + scale * y2, x + scale * x3, y + scale * y3];
      }
      default:
        return [step[0], x + scale * step[1], y + scale * step[2]];
    }
  });
  return {
    kind: 'path',
    steps: moved,
    ink,
    ...(thickness === undefined ? {} : { thickness: thickness * scale }),
    ...(dashed === true ? { dash: SIZES.dash.map((length) => length * scale) } : {}),
  };
}

function rectangleSteps({ x, y, width, height, rounding }: Extract<Item, { kind: 'rectangle' }>): readonly PathStep[] {
  if (rounding > 0) return roundedSteps(x, y, width, height, Math.min(rounding, width / 2, height / 2));
  return [['M', x, y], ['L', x + width, y], ['L', x + width, y + height], ['L', x, y + height], ['Z']];
}

/** How far the points of a curve stand off along a quarter of a circle of radius 1. Source: 4/3 · (√2 − 1), error below 0.03 %. */
const QUARTER = (4 / 3) * (Math.SQRT2 - 1);

function roundedSteps(x: number, y: number, width: number, height: number, r: number): readonly PathStep[] {
  const k = r * (1 - QUARTER);
  const [right, bottom] = [x + width, y + height];
  return [
    ['M', x + r, y],
    ['L', right - r, y],
    ['C', right - k, y, right, y + k, right, y + r],
    ['L', right, bottom - r],
    ['C', right, bottom - k, right - k, bottom, right - r, bottom],
    ['L', x + r, bottom],
    ['C', x + k, bottom, x, bottom - k, x, bottom - r],
    ['L', x, y + r],
    ['C', x, y + k, x + k, y, x + r, y],
    ['Z'],
  ];
}

function textsOf(item: TextItem, frame: Frame): readonly FlatText[] {
  const { role, ink, anchor } = item;
  const weight = item.bold === true ? 'bold' : 'plain';
  const runs = item.runs ?? [{ text: item.text, size: item.size, lift: 0 }];
  const widths = runs.map((run) => textWidth(run.text, role, run.size, weight));
  const width = widths.reduce((sum, one) => sum + one, 0);
  let x = item.x - (anchor === 'start' ? 0 : anchor === 'middle' ? width / 2 : width);
  return runs.map((run, index): FlatText => {
    const start = x;
    x += widths[index] ?? 0;
    return {
      kind: 'text',
      x: frame.x + frame.scale * start,
      y: frame.y + frame.scale * (item.y - run.lift),
      text: run.text,
      size: frame.scale * run.size,
      face: faceOf(role, weight),
      ink,
    };
  });
}

/** How far letters reach over the baseline and below it at most. Unit: em. Source: outlines of the faces. */
const REACH_EM = { rise: 0.94, fall: 0.25 };

/** The room that the items take up, the thickness of their lines reckoned in; undefined where there are none. */
export function extentOf(items: readonly FlatItem[]): Box | undefined {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  const reach = (x: number, y: number, by: number): void => {
    left = Math.min(left, x - by);
    top = Math.min(top, y - by);
    right = Math.max(right, x + by);
    bottom = Math.max(bottom, y + by);
  };
  for (const item of items) {
    if (item.kind === 'text') {
      reach(item.x, item.y - REACH_EM.rise * item.size, 0);
      reach(item.x + faceWidth(item.text, item.face, item.size), item.y + REACH_EM.fall * item.size, 0);
      continue;
    }
    const half = (item.thickness ?? 0) / 2;
    // A curve stays within the hull of its points.
    for (const step of item.steps) {
      for (let index = 1; index + 1 < step.length; index += 2)
        reach(Number(step[index]), Number(step[index + 1]), half);
    }
  }
  return left > right ? undefined : { x: left, y: top, width: right - left, height: bottom - top };
}
