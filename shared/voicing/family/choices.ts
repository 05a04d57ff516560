import type { Instrument } from '../../neck/instrument.ts';
import type { Shape } from '../../neck/shape.ts';
import { atOnce, type InSteps } from '../in-steps.ts';
import { type Candidate, candidatesInSteps, type FamilyLimits, pinnedCandidate } from './candidates.ts';
import { faultOfPin } from './pinned.ts';
import type { WantedChord } from './sounding.ts';

/** The shapes that a chord of the family may be held in, with these limits. */
export function choicesFor(
  held: Instrument,
  limits: FamilyLimits,
  wanted: WantedChord,
  pinned: Shape | undefined,
): readonly Candidate[] {
  return atOnce(choicesInSteps(held, limits, wanted, pinned));
}

/** The same, cut into steps. */
export function* choicesInSteps(
  held: Instrument,
  limits: FamilyLimits,
  wanted: WantedChord,
  pinned: Shape | undefined,
): InSteps<readonly Candidate[]> {
  if (pinned === undefined) return yield* candidatesInSteps(held, wanted, limits);
  if (faultOfPin(pinned, held, limits) !== undefined) return [];
  const candidate = pinnedCandidate(held, wanted, pinned, limits);
  return candidate === undefined ? [] : [candidate];
}
