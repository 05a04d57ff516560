import type { Fingering } from '../hand/fingering.ts';
import { fingeringsOf } from '../hand/fingering-search.ts';
import { type HandSize, printHand } from '../hand/hand.ts';
import { neckAboveCapo } from '../neck/capo.ts';
import type { Instrument } from '../neck/instrument.ts';
import { printShape, type Shape } from '../neck/shape.ts';

/** Fingerings that are kept for one instrument: more than a lesson and its offers need. Beyond it the memory starts again. */
const KEPT_FINGERINGS = 3000;

const kept = new WeakMap<Instrument, Map<string, Fingering | undefined>>();

/**
 * The way a hand holds a shape when nobody says how: the first that `fingeringsOf` finds, the thumb behind the neck. Kept by what
 * is asked, so that asking again costs nothing. Nothing where four fingers of this hand cannot stop the shape; out of reach where
 * they could but for the distance: see its verdict.
 */
export function usualFingering(instrument: Instrument, shape: Shape, hand: HandSize): Fingering | undefined {
  const neck = neckAboveCapo(instrument);
  const known = kept.get(neck) ?? new Map<string, Fingering | undefined>();
  if (known.size >= KEPT_FINGERINGS) known.clear();
  kept.set(neck, known);
  const question = `${printHand(hand)} ${printShape(shape)}`;
  if (known.has(question)) return known.get(question);
  const [best] = fingeringsOf(neck, shape, hand);
  known.set(question, best);
  return best;
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
