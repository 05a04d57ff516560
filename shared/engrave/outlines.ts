import type { Ink, PathItem, PathStep } from './drawing.ts';

// Signs drawn as outlines of our own, because faces differ in them or lack them. Each takes the middle it stands on.

/** A cross of two strokes. */
export function cross(x: number, y: number, radius: number, thickness: number, ink: Ink): PathItem {
  const steps: readonly PathStep[] = [
    ['M', x - radius, y - radius],
    ['L', x + radius, y + radius],
    ['M', x - radius, y + radius],
    ['L', x + radius, y - radius],
  ];
  return { kind: 'path', steps, ink, thickness };
}

export function diamond(x: number, y: number, halfWidth: number, halfHeight: number): readonly PathStep[] {
  return [['M', x, y - halfHeight], ['L', x + halfWidth, y], ['L', x, y + halfHeight], ['L', x - halfWidth, y], ['Z']];
}

/** The head of an arrow whose tip is at (x, y); `direction` is −1 where it points up the page, 1 where it points down. */
export function arrowHead(x: number, y: number, direction: 1 | -1, width: number, height: number): readonly PathStep[] {
  const back = y - direction * height;
  return [
    ['M', x, y],
    ['L', x + width / 2, back],
    ['L', x, back + direction * height * 0.2],
    ['L', x - width / 2, back],
    ['Z'],
  ];
}

/** A wavy line straight down the page. */
export function wave(x: number, top: number, bottom: number, swing: number): readonly PathStep[] {
  const count = Math.max(2, Math.round((bottom - top) / 1.7));
  const length = (bottom - top) / count;
  const steps: PathStep[] = [['M', x, top]];
  for (let index = 0; index < count; index++) {
    const from = top + index * length;
    const side = index % 2 === 0 ? swing : -swing;
    steps.push(['C', x + side, from + length * 0.35, x + side, from + length * 0.65, x, from + length]);
  }
  return steps;
}

/**
 * A bow from one point to another of the same height, thin at its ends and `thickness` in its middle. `rise` is how far its curve is
 * pulled away (negative: upwards); it reaches three quarters of that. `inset` is how far along the pull begins, at most.
 */
export function bow(
  x1: number,
  x2: number,
  y: number,
  { rise, thickness, inset: most }: { readonly rise: number; readonly thickness: number; readonly inset: number },
): readonly PathStep[] {
  const inset = Math.min(most, (x2 - x1) * 0.3);
  const outer = y + rise;
  const inner = outer - Math.sign(rise) * thickness;
  return [
    ['M', x1, y],
    ['C', x1 + inset, outer, x2 - inset, outer, x2, y],
    ['C', x2 - inset, inner, x1 + inset, inner, x1, y],
    ['Z'],
  ];
}

/** A wedge that opens to the left: louder. */
export function accentWedge(x: number, y: number): PathItem {
  const steps: readonly PathStep[] = [
    ['M', x - 1.15, y - 0.75],
    ['L', x + 1.15, y],
    ['L', x - 1.15, y + 0.75],
  ];
  return { kind: 'path', steps, ink: 'strong', thickness: 0.34 };
}

export function filled(ink: Ink, ...steps: readonly PathStep[]): PathItem {
  return { kind: 'path', steps, ink };
}

/** A small wavy line along the page, four bumps long. */
export function ripple(x: number, y: number, length: number): readonly PathStep[] {
  const step = length / 4;
  const bumps = [0, 1, 2, 3].map((index): PathStep => {
    const from = x + index * step;
    const side = index % 2 === 0 ? -0.9 : 0.9;
    return ['C', from + step * 0.35, y + side, from + step * 0.65, y + side, from + step, y];
  });
  return [['M', x, y], ...bumps];
}
