import { fretDistanceMm } from '../neck/fret-positions.ts';
import type { Instrument } from '../neck/instrument.ts';
import type { Shape } from '../neck/shape.ts';
import type { HandSize, ReachLimit } from './hand.ts';
import { reachLimit } from './hand.ts';

/** Said wherever a stretch or a practice load is shown. Source: NASM & PAMA, student sheet; D. Roest, "Seven habits"; in our words. */
export const CAUTION_ON_STRETCH = 'Warm up first; if it hurts, stop, and ask a teacher or clinician.';

/** The same in short, for a message that stands among others; where a list of them ends, the whole is said once. */
export const CAUTION_IN_SHORT = 'Warm up; if it hurts, stop and ask.';

/** What the fretting hand has to span. */
export interface Reach {
  /** Lowest and highest fret that a finger stops, as the hand counts them: from the nut or the capo. */
  readonly lowFret: number;
  readonly highFret: number;
  /** Frets between the two: 3 for frets 1 to 4. */
  readonly spanFrets: number;
  /** Along the neck between the two wires. Unit: mm. */
  readonly reachMm: number;
}

export type ReachVerdict = 'comfortable' | 'stretched' | 'out-of-reach';

export interface JudgedReach extends Reach {
  readonly verdict: ReachVerdict;
  readonly limit: ReachLimit;
}

/**
 * The reach of a shape on its instrument. Open and muted strings do not count; nothing when no string is stopped.
 * A capo moves everything up the neck, where frets are narrower.
 */
export function measureReach(instrument: Instrument, shape: Shape): Reach | undefined {
  const stopped = shape.filter((fret): fret is number => fret !== 'muted' && fret > 0);
  if (stopped.length === 0) return undefined;
  const lowFret = Math.min(...stopped);
  const highFret = Math.max(...stopped);
  const { capoFret, scaleLengthMm } = instrument;
  const reachMm = fretDistanceMm(scaleLengthMm, capoFret + lowFret, capoFret + highFret);
  return { lowFret, highFret, spanFrets: highFret - lowFret, reachMm };
}

/** The reach of a shape and what it is to this hand: at ease, a stretch, or too far. Nothing when no string is stopped. */
export function judgeReach(instrument: Instrument, shape: Shape, hand: HandSize): JudgedReach | undefined {
  const reach = measureReach(instrument, shape);
  if (reach === undefined) return undefined;
  const limit = reachLimit(hand);
  return { ...reach, verdict: judgeMm(reach.reachMm, limit), limit };
}

/** What a distance of two fingers is to a hand: at ease, a stretch, or too far. Unit: mm. */
export function judgeMm(reachMm: number, { comfortableMm, greatestMm }: ReachLimit): ReachVerdict {
  return reachMm <= comfortableMm ? 'comfortable' : reachMm <= greatestMm ? 'stretched' : 'out-of-reach';
}
