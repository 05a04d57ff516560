import type { Item } from './drawing.ts';
import { line } from './drawing.ts';
import { arrowHead, cross, diamond, filled, wave } from './outlines.ts';
import { SIZES } from './sizes.ts';
import { type Opening, openAll, type Piece, type Staff } from './tab-piece.ts';

// What the strumming hand does, as signs on the staff. Each has a shape of its own, because a sheet is also printed in black.

/** How far a stroke reaches beyond its outer strings. Unit: mm. */
const OVERSHOOT_MM = 1.1;

export interface StrokeLook {
  readonly direction: 'down' | 'up';
  readonly slow: boolean;
  readonly light: boolean;
  readonly accent: boolean;
  /** Smallest and largest number of the struck strings. */
  readonly strings: readonly [number, number];
}

/**
 * A stroke as an arrow over the struck strings. A down-stroke goes toward the floor, from the highest-numbered string to
 * string 1; string 1 is the top line of the staff, so its arrow points up the page.
 */
export function strokeArrow(staff: Staff, look: StrokeLook): readonly Item[] {
  const top = staff.y(look.strings[0]) - OVERSHOOT_MM;
  const bottom = staff.y(look.strings[1]) + OVERSHOOT_MM;
  const up = look.direction === 'down';
  const tip = up ? top : bottom;
  const headHeight = 2.5;
  const end = up ? top + headHeight * 0.7 : bottom - headHeight * 0.7;
  const start = up ? bottom : top;
  const thickness = look.light
    ? SIZES.thinStrokeThickness
    : look.accent
      ? SIZES.strokeThickness * 1.5
      : SIZES.strokeThickness;
  const shaft: Item = look.slow
    ? { kind: 'path', steps: wave(0, Math.min(start, end), Math.max(start, end), 0.9), ink: 'strong', thickness: 0.36 }
    : look.light
      ? {
          kind: 'path',
          steps: [
            ['M', 0, start],
            ['L', 0, end],
          ],
          ink: 'strong',
          thickness,
          dashed: true,
        }
      : line(0, start, 0, end, thickness);
  const steps = arrowHead(0, tip, up ? -1 : 1, look.accent ? 2.6 : 2.1, headHeight);
  const head: Item = look.light
    ? { kind: 'path', steps, ink: 'strong', thickness: SIZES.thinStrokeThickness }
    : filled('strong', ...steps);
  return [shaft, head];
}

/** Crosses on the struck strings: they sound damped. */
export function dampedHeads(
  staff: Staff,
  strings: readonly number[],
  x: number,
): { readonly items: readonly Item[]; readonly openings: readonly Opening[] } {
  const radius = 0.85;
  return {
    items: strings.map((string) => cross(x, staff.y(string), radius, 0.36, 'strong')),
    openings: strings.map((string) => ({ string, left: x - radius - 0.15, right: x + radius + 0.15 })),
  };
}

/** One large cross over the whole staff: the strumming hand stops its own stroke. */
export function chunkSign(staff: Staff): Piece {
  const half = 1.5;
  const items: readonly Item[] = [
    line(-half, -0.9, half, staff.height + 0.9, SIZES.strokeThickness),
    line(-half, staff.height + 0.9, half, -0.9, SIZES.strokeThickness),
  ];
  return { row: 'staff', left: half + 0.2, right: half + 0.2, items, signs: ['chunk'] };
}

/** A fan that opens upwards: the fingers fall across the strings one after another. */
export function rollSign(staff: Staff): Piece {
  const foot = staff.height + 0.9;
  const items = [-1.7, -0.58, 0.58, 1.7].map((x) => line(0, foot, x, -0.9, 0.36));
  const head = filled('strong', ...diamond(0, foot, 0.75, 0.75));
  return { row: 'staff', left: 1.9, right: 1.9, items: [...items, head], signs: ['roll'] };
}

/** A short slanting line on every string: the whole shape slides. */
export function shapeSlideSign(staff: Staff): Piece {
  const half = 1.3;
  const items = Array.from({ length: staff.stringCount }, (_, index) =>
    line(-half, staff.y(index + 1) + 0.75, half, staff.y(index + 1) - 0.75, 0.42),
  );
  return {
    row: 'staff',
    left: half,
    right: half,
    items,
    openings: openAll(staff, -half, half),
    signs: ['shape-slide'],
  };
}

/** A filled diamond on the slapped string. */
export function thumbSlapSign(staff: Staff, string: number): Piece {
  const items: readonly Item[] = [filled('strong', ...diamond(0, staff.y(string), 1.45, 1.55))];
  return { row: 'staff', left: 1.5, right: 1.5, items, signs: ['thumb-slap'] };
}

/** An upright hollow bar: the flat hand falls on the strings. */
export function palmSign(staff: Staff): Piece {
  const half = 1.1;
  const items: readonly Item[] = [
    {
      kind: 'rectangle',
      x: -half,
      y: -1,
      width: 2 * half,
      height: staff.height + 2,
      rounding: half,
      ink: 'strong',
      thickness: 0.42,
    },
  ];
  return {
    row: 'staff',
    left: half + 0.25,
    right: half + 0.25,
    items,
    openings: openAll(staff, -half, half),
    signs: ['palm'],
  };
}

/** Three slanting scratches. */
export function nailsSign(staff: Staff): Piece {
  const items = [-1.1, 0, 1.1].map((x) =>
    line(x - 0.5, staff.height * 0.5 + 2.6, x + 0.5, staff.height * 0.5 - 2.6, 0.4),
  );
  return { row: 'staff', left: 1.8, right: 1.8, items, signs: ['nails'] };
}

/** A ring with a point in it, in the middle of the staff: a knock on the body. */
export function bodySign(staff: Staff): Piece {
  const middle = staff.height / 2;
  const items: readonly Item[] = [
    { kind: 'circle', x: 0, y: middle, radius: 1.6, ink: 'strong', thickness: 0.42 },
    { kind: 'circle', x: 0, y: middle, radius: 0.55, ink: 'strong' },
  ];
  return { row: 'staff', left: 1.9, right: 1.9, items, openings: openingsAround(staff, middle, 1.6), signs: ['body'] };
}

/** A small block on each string that is stopped. */
export function stringStops(staff: Staff, strings: readonly number[]): Piece {
  const items = strings.map(
    (string): Item => ({
      kind: 'rectangle',
      x: -0.8,
      y: staff.y(string) - 0.8,
      width: 1.6,
      height: 1.6,
      rounding: 0,
      ink: 'strong',
    }),
  );
  return { row: 'staff', left: 0.9, right: 0.9, items, signs: ['stop-string'] };
}

/** Openings of the strings that run through something round in the middle of the staff. */
export function openingsAround(staff: Staff, middle: number, half: number, reach = half): readonly Opening[] {
  return openAll(staff, -half, half).filter(({ string }) => Math.abs(staff.y(string) - middle) < reach);
}
