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
  let cost = reachEffort(neck, low, high) + fingerEffort(shape, low);
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
 * Strings that one finger can stop together go to one where that is less effort, or where the fingers would not be enough. At the
 * lowest fret a finger lies across the neck, under those of the higher frets; at a higher fret it takes strings side by side.
 */
function fingerEffort(shape: Shape, low: number): number {
  let cost = 0;
  let fingers = 0;
  let atLowest = 0;
  let higher = 0;
  let barres = 0;
  let across = 0;
  let beside = 0;
  let besideFret = 0;
  for (let at = 0; at <= shape.length; at += 1) {
    const stopped = shape[at];
    const fret = stopped === undefined || stopped === 'muted' ? 0 : stopped;
    if (fret !== besideFret && beside > 0) {
      cost += pressEffort(beside, EFFORT.otherBarre);
      fingers += fingersOnPress(beside, EFFORT.otherBarre);
      higher += 1;
      beside = 0;
    }
    if (fret === 0 && across > 0) {
      cost += pressEffort(across, EFFORT.indexBarre);
      fingers += fingersOnPress(across, EFFORT.indexBarre);
      atLowest += 1;
      if (across > 2) barres += 1;
      across = 0;
    }
    besideFret = fret;
    if (fret === low) across += 1;
    else if (fret > 0) beside += 1;
  }
  const more = atLowest - 1;
  cost += more * higher * EFFORT.secondAtLowest + more * barres * EFFORT.secondBesideBarre;
  // Only pairs were given a finger for each string; putting one finger on a pair costs the difference.
  return cost + Math.max(0, fingers - MOST_FINGERS) * (EFFORT.otherBarre - EFFORT.finger);
}

function pressEffort(strings: number, barre: number): number {
  return Math.min(strings * EFFORT.finger, EFFORT.finger + barre);
}

function fingersOnPress(strings: number, barre: number): number {
  return strings * EFFORT.finger <= EFFORT.finger + barre ? strings : 1;
}
