import type { Fingering } from '../hand/fingering.ts';
import type { HandSize } from '../hand/hand.ts';
import { waysToHold } from '../hand/kept-fingerings.ts';
import type { Instrument } from '../neck/instrument.ts';
import type { Shape } from '../neck/shape.ts';

/**
 * The way a hand holds a shape when nobody says how: the best one, the thumb behind the neck. Nothing where four fingers of this hand
 * cannot stop the shape; out of reach where they could but for the distance: see its verdict.
 */
export function usualFingering(instrument: Instrument, shape: Shape, hand: HandSize): Fingering | undefined {
  return waysToHold(instrument, shape, hand)[0];
}

/** True when the hand can hold the shape somehow, at ease or stretched. */
export function isPlayable(instrument: Instrument, shape: Shape, hand: HandSize): boolean {
  const fingering = usualFingering(instrument, shape, hand);
  return fingering !== undefined && fingering.verdict !== 'out-of-reach';
}

/** What the hand can hold, at ease or stretched, before what it cannot; in both the order stays as it was. */
export function playableFirst<V extends { readonly shape: Shape }>(
  voicings: readonly V[],
  instrument: Instrument,
  hand: HandSize,
): readonly V[] {
  const within: V[] = [];
  const beyond: V[] = [];
  for (const voicing of voicings) (isPlayable(instrument, voicing.shape, hand) ? within : beyond).push(voicing);
  return beyond.length === 0 || within.length === 0 ? voicings : [...within, ...beyond];
}
