import type { ReachLimit } from '../hand/hand.ts';
import type { Shape } from '../neck/shape.ts';

/**
 * What makes a shape less welcome. Unit: of effort, where one more finger is 0.3. Common practice, no source; the order that comes
 * of it is held by the chart of usual shapes in the tests.
 */
const EFFORT = {
  finger: 0.3,
  barre: 0.35,
  fretUpTheNeck: 0.25,
  fretOfSpan: 0.3,
  stretched: 1.5,
  outOfReach: 8,
  mutedString: 0.5,
  loneOpenString: 0.12,
};

/** How hard a shape is to hold, from nothing (all strings open) upward; without the chord, only hand and neck. */
export function holdingEffort(shape: Shape, reachMm: number, limit: ReachLimit): number {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  let stopped = 0;
  let muted = 0;
  for (const fret of shape) {
    if (fret === 'muted') muted += 1;
    else if (fret > 0) {
      stopped += 1;
      low = Math.min(low, fret);
      high = Math.max(high, fret);
    }
  }
  if (stopped === 0) return muted * EFFORT.mutedString;
  const { fingers, barred } = fingersFor(shape);
  const span = high - low;
  // Open strings beside stopped ones high up the neck sound apart from them.
  const open = shape.length - stopped - muted;
  const apart = open > 0 && low > 4 ? open * (low - 4) * EFFORT.loneOpenString : 0;
  const reach = reachMm <= limit.comfortableMm ? 0 : reachMm <= limit.greatestMm ? EFFORT.stretched : EFFORT.outOfReach;
  return (
    fingers * EFFORT.finger +
    (barred ? EFFORT.barre : 0) +
    (low - 1) * EFFORT.fretUpTheNeck +
    span * EFFORT.fretOfSpan +
    muted * EFFORT.mutedString +
    apart +
    reach
  );
}

/**
 * Fingers that hold the shape: one for each stopped string, or one across all that lie in the lowest fret when no open string lies
 * between them and fingers are saved that are needed. A simple count; which finger goes where is not asked here.
 */
export function fingersFor(shape: Shape): { readonly fingers: number; readonly barred: boolean } {
  let low = Number.POSITIVE_INFINITY;
  let stopped = 0;
  let inLow = 0;
  let openSince = false;
  let clear = true;
  for (const fret of shape) {
    if (fret === 'muted') continue;
    if (fret === 0) {
      openSince = true;
      continue;
    }
    stopped += 1;
    if (fret < low) {
      low = fret;
      inLow = 0;
      clear = true;
      openSince = false;
    }
    if (fret !== low) continue;
    // An open string between two strings of the barre would be stopped by it.
    if (inLow > 0 && openSince) clear = false;
    openSince = false;
    inLow += 1;
  }
  if (inLow < 2 || !clear || (stopped <= 3 && inLow < 3)) return { fingers: stopped, barred: false };
  return { fingers: stopped - inLow + 1, barred: true };
}
