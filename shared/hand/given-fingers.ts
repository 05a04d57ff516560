import type { Instrument } from '../neck/instrument.ts';
import type { Shape } from '../neck/shape.ts';
import type { FingerFault, Fingering } from './fingering.ts';
import type { HandSize } from './hand.ts';

/** What fingers that a lesson gives come to: the fingering where the fingers can be placed, and everything that speaks against it. */
export interface JudgedFingers {
  readonly fingering?: Fingering;
  readonly faults: readonly FingerFault[];
}

/** Fingers in chart order, as a lesson gives them: 0 where no finger is. */
export function judgeFingers(
  _instrument: Instrument,
  _shape: Shape,
  _given: readonly (number | 'T')[],
  _hand: HandSize,
): JudgedFingers {
  throw new Error('The judge is being written.');
}
