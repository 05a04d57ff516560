import type { Instrument } from '../neck/instrument.ts';
import type { Shape } from '../neck/shape.ts';
import type { Fingering, FingeringWishes } from './fingering.ts';
import type { HandSize } from './hand.ts';

/**
 * Every way to hold the shape, best first: at ease before stretched before out of reach, then by cost, then by finger numbers.
 * Empty where four fingers cannot stop it. Exact: no way that hands hold is left out.
 */
export function fingeringsOf(
  _instrument: Instrument,
  _shape: Shape,
  _hand: HandSize,
  _wishes: FingeringWishes = {},
): readonly Fingering[] {
  throw new Error('The search is being written.');
}
