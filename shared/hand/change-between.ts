import type { Instrument } from '../neck/instrument.ts';
import type { Change } from './change.ts';
import { fingersEffort, shiftEffort, travelEffort } from './change-cost.ts';
import type { Finger } from './finger.ts';
import { type FingerState, fingerMove, handShift, holdsHand } from './finger-move.ts';
import type { Fingering, Press } from './fingering.ts';
import { handPosition } from './fingering-cost.ts';
import { type NeckInMm, neckInMm } from './neck-in-mm.ts';

/**
 * What the fingers do from one fingering to another. A finger in the air hangs over its own fret in the hand's position.
 * There and back the same fingers stay, slide, roll and move, all distances are the same, and what lands one way lifts the other;
 * because landing costs more than lifting, and laying a finger flat more than getting it up, the costs differ by that. Where this is shown as a load, `CAUTION_ON_STRETCH` belongs.
 */
export function changeBetween(instrument: Instrument, from: Fingering, to: Fingering): Change {
  return changeOf(neckInMm(instrument), placedHand(from.presses), placedHand(to.presses));
}

/** Who presses what, and where the hand is. */
export interface PlacedHand {
  readonly presses: readonly Press[];
  /** The fret where the index finger is, or would be if it pressed; absent where only the thumb or nothing does. */
  readonly positionFret?: number;
}

export function placedHand(presses: readonly Press[]): PlacedHand {
  const index = presses.find(({ finger }) => finger === 1);
  const positionFret = index?.fret ?? handPosition(presses)?.fret;
  return { presses, ...(positionFret === undefined ? {} : { positionFret }) };
}

export const ALL_FINGERS: readonly Finger[] = [1, 2, 3, 4, 'T'];

export function fingerState(press: Press | undefined, positionFret: number | undefined): FingerState {
  return { ...(press && { press }), ...(positionFret === undefined ? {} : { positionFret }) };
}

function stateOf({ presses, positionFret }: PlacedHand, finger: Finger): FingerState {
  return fingerState(
    presses.find((one) => one.finger === finger),
    positionFret,
  );
}

export function changeOf(neck: NeckInMm, from: PlacedHand, to: PlacedHand): Change {
  const moves = ALL_FINGERS.flatMap(
    (finger) => fingerMove(neck, finger, stateOf(from, finger), stateOf(to, finger)) ?? [],
  );
  const shift = moves.some(holdsHand) ? undefined : handShift(neck, from.positionFret, to.positionFret);
  const fingers = moves.reduce((sum, move) => sum + fingersEffort(move), 0);
  const travel = moves.reduce((sum, move) => sum + travelEffort(move), 0);
  const shifting = shiftEffort(shift);
  const cost = { fingers, travel, shift: shifting, total: fingers + travel + shifting };
  return { moves, ...(shift === undefined ? {} : { shift }), cost };
}
