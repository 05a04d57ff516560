import { reachLimit, USUAL_HAND } from '../hand/hand.ts';
import { fretDistanceMm } from '../neck/fret-positions.ts';
import type { Instrument } from '../neck/instrument.ts';
import type { Shape } from '../neck/shape.ts';
import { MOST_FINGERS, MOST_SPAN_FRETS } from './shape-limits.ts';

/**
 * What makes a shape hard to hold. Unit: points, whole numbers, where one more finger is 30. Common practice, no source; the order
 * that comes of it is held by the charts of usual shapes in the tests.
 */
const EFFORT = {
  finger: 30,
  /** One finger flat across two strings or more: the index finger, and another one, beside the finger itself. */
  indexBarre: 35,
  otherBarre: 50,
  fretUpTheNeck: 25,
  fretOfSpan: 30,
  /** A fret inside the span that no finger stops: the fingers around it must spread. */
  emptyFret: 45,
  /** One more finger at the lowest fret, for each finger that is needed above it: none lies there ready. */
  secondAtLowest: 10,
  /** One more finger at the lowest fret beside a barre. */
  secondBesideBarre: 40,
  stretched: 150,
  outOfReach: 800,
  /** An open string beside stopped ones high up the neck, for every fret that they are above the third: it sounds apart. */
  loneOpenString: 15,
};

/** What the neck asks of the hand. Computed once for an instrument. */
export interface NeckEffort {
  /** Place and reach for each lowest fret and each span, at `low * (MOST_SPAN_FRETS + 1) + span`. Unit: points. */
  readonly reach: Int16Array;
}

export function neckEffort({ capoFret, scaleLengthMm, frets }: Instrument): NeckEffort {
  const limit = reachLimit(USUAL_HAND);
  const reach = new Int16Array((frets - capoFret + 1) * (MOST_SPAN_FRETS + 1));
  for (let low = 1; low <= frets - capoFret; low += 1) {
    for (let span = 0; span <= MOST_SPAN_FRETS; span += 1) {
      const reachMm = fretDistanceMm(scaleLengthMm, capoFret + low, capoFret + low + span);
      const strain =
        reachMm <= limit.comfortableMm ? 0 : reachMm <= limit.greatestMm ? EFFORT.stretched : EFFORT.outOfReach;
      reach[low * (MOST_SPAN_FRETS + 1) + span] = strain + span * EFFORT.fretOfSpan + (low - 1) * EFFORT.fretUpTheNeck;
    }
  }
  return { reach };
}

/**
 * How hard a shape is to hold, from nothing (all strings open) upward; without the chord, only hand and neck. Unit: points.
 * The boundary to the hand: whatever model stands behind it, it may not answer less than `leastEffort`, or the search would pass
 * over shapes that it should have found.
 */
export function holdingEffort(neck: NeckEffort, shape: Shape): number {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  let open = 0;
  let used = 0;
  for (const fret of shape) {
    if (fret === 'muted') continue;
    if (fret === 0) open += 1;
    else {
      if (fret < low) low = fret;
      if (fret > high) high = fret;
      used |= 1 << fret;
    }
  }
  if (high === 0) return 0;
  let cost = reachEffort(neck, low, high) + fingerEffort(shape, low, used);
  for (let fret = low + 1; fret < high; fret += 1) if ((used & (1 << fret)) === 0) cost += EFFORT.emptyFret;
  return low > 3 ? cost + open * (low - 3) * EFFORT.loneOpenString : cost;
}

/**
 * What a shape costs at least of which only some strings are known: the lowest fret that is stopped, the highest so far, and the
 * fewest fingers that hold it so far. `low` is 0 where no string is stopped. Unit: points.
 */
export function leastEffort(neck: NeckEffort, low: number, high: number, fingers: number): number {
  return low === 0 ? 0 : fingers * EFFORT.finger + reachEffort(neck, low, Math.max(low, high));
}

function reachEffort({ reach }: NeckEffort, low: number, high: number): number {
  return reach[low * (MOST_SPAN_FRETS + 1) + high - low] ?? EFFORT.outOfReach;
}

/**
 * Strings that one finger can stop together go to one where that is less effort, or where the fingers would not be enough. A finger
 * lies across the strings of its fret, those between that are silent or stopped higher being no hindrance; what rings open or is
 * stopped lower would be spoiled by it.
 */
function fingerEffort(shape: Shape, low: number, used: number): number {
  let cost = 0;
  let fingers = 0;
  let atLowest = 0;
  let higher = 0;
  let barres = 0;
  for (let rest = used; rest !== 0; rest &= rest - 1) {
    const at = 31 - Math.clz32(rest & -rest);
    const barre = at === low ? EFFORT.indexBarre : EFFORT.otherBarre;
    let strings = 0;
    for (let string = 0; string <= shape.length; string += 1) {
      const fret = shape[string];
      if (fret === at) strings += 1;
      const ends = fret === undefined || (fret !== 'muted' && fret < at);
      if (!ends || strings === 0) continue;
      const alone = strings * EFFORT.finger <= EFFORT.finger + barre;
      cost += alone ? strings * EFFORT.finger : EFFORT.finger + barre;
      fingers += alone ? strings : 1;
      if (at > low) higher += 1;
      else {
        atLowest += 1;
        if (!alone) barres += 1;
      }
      strings = 0;
    }
  }
  const more = atLowest - 1;
  cost += more * higher * EFFORT.secondAtLowest + more * barres * EFFORT.secondBesideBarre;
  // Only pairs were given a finger for each string; putting one finger on a pair costs the difference.
  return cost + Math.max(0, fingers - MOST_FINGERS) * (EFFORT.otherBarre - EFFORT.finger);
}
