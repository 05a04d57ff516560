import type { Instrument } from '../../neck/instrument.ts';
import type { Shape } from '../../neck/shape.ts';
import { atOnce, type InSteps } from '../in-steps.ts';
import { type Candidate, candidatesInSteps, type FamilyLimits, pinnedCandidate } from './candidates.ts';
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
  if (!keepsTo(pinned, held, limits)) return [];
  const candidate = pinnedCandidate(held, wanted, pinned, limits);
  return candidate === undefined ? [] : [candidate];
}

/** A pinned shape is what the teacher wants, but the strings that ring and the range hold for it as well. */
function keepsTo(shape: Shape, { openStrings, frets }: Instrument, { ring, within }: FamilyLimits): boolean {
  if (shape.length !== openStrings.length) return false;
  if (ring.some((number) => shape[shape.length - number] !== 0)) return false;
  const [low, high] = within ?? [0, frets];
  return shape.every((fret) => fret === 'muted' || fret === 0 || (fret >= low && fret <= high && fret <= frets));
}
