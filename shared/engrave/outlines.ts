import type { Ink, Item, PathItem, PathStep } from './drawing.ts';

// Signs drawn as outlines of our own, because faces differ in them or lack them. Each takes the middle it stands on.

/** Width of the accidentals. Unit: of their height. */
export const SHARP_WIDTH = 0.42;
export const FLAT_WIDTH = 0.4;

/** A sharp whose foot stands on `y`; `height` is that of the capital letter beside it. */
export function sharp(x: number, y: number, height: number, ink: Ink): readonly Item[] {
  const w = SHARP_WIDTH * height;
  const thin = height * 0.055;
  const bar = (at: number): PathItem =>
    filled(
      ink,
      ['M', x, y - at],
      ['L', x + w, y - at - 0.12 * height],
      ['L', x + w, y - at - 0.22 * height],
      ['L', x, y - at - 0.1 * height],
      ['Z'],
    );
  const stem = (at: number, lift: number): PathItem =>
    filled(
      ink,
      ['M', x + at - thin, y - lift],
      ['L', x + at + thin, y - lift],
      ['L', x + at + thin, y - lift - height * 0.94],
      ['L', x + at - thin, y - lift - height * 0.94],
      ['Z'],
    );
  return [stem(w * 0.29, 0), stem(w * 0.71, height * 0.06), bar(0.22 * height), bar(0.56 * height)];
}

/** A flat whose foot stands on `y`. */
export function flat(x: number, y: number, height: number, ink: Ink): readonly Item[] {
  const h = height;
  return [
    filled(
      ink,
      ['M', x, y - 1.08 * h],
      ['L', x + 0.09 * h, y - 1.08 * h],
      ['L', x + 0.09 * h, y - 0.5 * h],
      ['C', x + 0.24 * h, y - 0.66 * h, x + 0.4 * h, y - 0.56 * h, x + 0.37 * h, y - 0.38 * h],
      ['C', x + 0.34 * h, y - 0.2 * h, x + 0.14 * h, y - 0.06 * h, x, y],
      ['Z'],
      ['M', x + 0.09 * h, y - 0.38 * h],
      ['L', x + 0.09 * h, y - 0.16 * h],
      ['C', x + 0.18 * h, y - 0.24 * h, x + 0.24 * h, y - 0.32 * h, x + 0.24 * h, y - 0.42 * h],
      ['C', x + 0.23 * h, y - 0.52 * h, x + 0.14 * h, y - 0.5 * h, x + 0.09 * h, y - 0.38 * h],
      ['Z'],
    ),
  ];
}

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

/** A bow from one point to another of the same height, swelling by `rise` (negative: upwards). */
export function bow(x1: number, x2: number, y: number, rise: number): readonly PathStep[] {
  const inset = Math.min(1.2, (x2 - x1) * 0.3);
  return [
    ['M', x1, y],
    ['C', x1 + inset, y + rise * 1.3, x2 - inset, y + rise * 1.3, x2, y],
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
