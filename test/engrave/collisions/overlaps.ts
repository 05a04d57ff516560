import type { Area, Inked, Point } from './inked.ts';

/** Two items whose ink shares more than a hair, and by how much they would have to be moved apart. Unit: mm. */
export interface Overlap {
  readonly a: Inked;
  readonly b: Inked;
  readonly depth: number;
}

/** Below this two things look as if they just meet. Unit: mm. */
const HAIR_MM = 0.05;

interface OwnedArea {
  readonly owner: number;
  readonly area: Area;
}

/**
 * All pairs of items that share ink, each pair once with its deepest overlap. Areas are met from left to right and kept in bands
 * of the page, so only neighbours are compared.
 */
export function overlapsOf(inked: readonly Inked[]): readonly Overlap[] {
  const owned = inked
    .flatMap(({ areas }, owner) => areas.map((area): OwnedArea => ({ owner, area })))
    .sort((a, b) => a.area.left - b.area.left);
  const bands = new Map<number, OwnedArea[]>();
  const deepest = new Map<number, number>();
  for (const one of owned) {
    const { owner, area } = one;
    const met = new Set<OwnedArea>();
    for (let band = Math.floor(area.top / BAND_MM); band <= Math.floor(area.bottom / BAND_MM); band++) {
      const near = (bands.get(band) ?? []).filter((other) => other.area.right > area.left + HAIR_MM);
      for (const other of near) if (other.owner !== owner) met.add(other);
      near.push(one);
      bands.set(band, near);
    }
    for (const { owner: before, area: other } of met) {
      const down = Math.min(area.bottom, other.bottom) - Math.max(area.top, other.top);
      if (down <= HAIR_MM) continue;
      const across = Math.min(area.right, other.right) - Math.max(area.left, other.left);
      const depth = area.upright && other.upright ? Math.min(across, down) : depthOf(area.points, other.points);
      if (depth <= HAIR_MM) continue;
      const key = Math.min(before, owner) * inked.length + Math.max(before, owner);
      deepest.set(key, Math.max(depth, deepest.get(key) ?? 0));
    }
  }
  return [...deepest].flatMap(([key, depth]) => {
    const a = inked[Math.floor(key / inked.length)];
    const b = inked[key % inked.length];
    return a === undefined || b === undefined ? [] : [{ a, b, depth }];
  });
}

const BAND_MM = 3;

/** How far two convex areas reach into one another; 0 or less where a straight line parts them. */
function depthOf(a: readonly Point[], b: readonly Point[]): number {
  return Math.min(leastAlong(a, a, b), leastAlong(b, a, b));
}

/** The least overlap of two areas, seen along each edge of one of them. Source: the separating axis theorem. */
function leastAlong(edges: readonly Point[], a: readonly Point[], b: readonly Point[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let index = 0; index < edges.length; index++) {
    const [x1, y1] = edges[index] ?? [0, 0];
    const [x2, y2] = edges[(index + 1) % edges.length] ?? [0, 0];
    const length = Math.hypot(x2 - x1, y2 - y1);
    if (length < 1e-9) continue;
    const nx = (y2 - y1) / length;
    const ny = (x1 - x2) / length;
    let [aLow, aHigh, bLow, bHigh] = [1e9, -1e9, 1e9, -1e9];
    for (const [x, y] of a) {
      const along = x * nx + y * ny;
      if (along < aLow) aLow = along;
      if (along > aHigh) aHigh = along;
    }
    for (const [x, y] of b) {
      const along = x * nx + y * ny;
      if (along < bLow) bLow = along;
      if (along > bHigh) bHigh = along;
    }
    least = Math.min(least, Math.min(aHigh, bHigh) - Math.max(aLow, bLow));
    if (least <= 0) return least;
  }
  return least;
}
