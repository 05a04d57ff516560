import type { Change, FingerMove, HandShift } from './change.ts';
import { AIMED_MOVEMENT, EASY_SHARE, FURTHER_FINGER_SECONDS, LIFT_SECONDS } from './change-table.ts';

/** A learner's hand has time to spare; only a practised one gets there; or it is beyond a practised one too. */
export type ChangeVerdict = 'easy' | 'quick' | 'too-quick';

export interface JudgedChange {
  readonly verdict: ChangeVerdict;
  /** What a practised hand needs, an estimate. Unit: s. */
  readonly neededSeconds: number;
  /** What there is. Unit: s. */
  readonly seconds: number;
}

/**
 * Is there time for a change? `secondsForChange` goes from the last stroke on the old shape to the first on the new one.
 * A longer way or less time never makes the answer easier; where no finger does anything, any time is enough. Where the answer is
 * shown, `CAUTION_ON_STRETCH` belongs beside it: hurry is a load.
 */
export function judgeChange(change: Change, secondsForChange: number): JudgedChange {
  const neededSeconds = neededSecondsFor(change);
  return { verdict: judgeSeconds(neededSeconds, secondsForChange), neededSeconds, seconds: secondsForChange };
}

function judgeSeconds(neededSeconds: number, seconds: number): ChangeVerdict {
  const hurry = hurryOf(neededSeconds, seconds);
  return hurry <= EASY_SHARE ? 'easy' : hurry <= 1 ? 'quick' : 'too-quick';
}

/** Share of the time there is that a change needs: more than 1 is beyond a practised hand. Without end where there is no time. */
export function hurryOf(neededSeconds: number, seconds: number): number {
  if (neededSeconds === 0) return 0;
  return seconds > 0 ? neededSeconds / seconds : Number.POSITIVE_INFINITY;
}

/** All fingers set out together, and the change is over when the last has arrived. Unit: s. */
export function neededSecondsFor({ moves, shift }: Change): number {
  let longest = shiftSeconds(shift);
  let aiming = 0;
  for (const move of moves) {
    aiming += aims(move);
    longest = Math.max(longest, fingerSeconds(move));
  }
  return longest + furtherSeconds(aiming);
}

/** Of one finger by itself. Unit: s. */
function fingerSeconds(move: FingerMove): number {
  if (move.kind === 'stays') return 0;
  return move.kind === 'lifts' ? LIFT_SECONDS : aimedSeconds(move);
}

function shiftSeconds(shift: HandShift | undefined): number {
  return shift === undefined ? 0 : aimedSeconds(shift);
}

/** 1 for a finger that has to find its place, 0 for others: one that keeps its string is led by it. */
function aims({ kind }: FingerMove): number {
  return kind === 'stays' || kind === 'lifts' || kind === 'slides' ? 0 : 1;
}

/** On top of the longest, where several fingers have to find their places. Unit: s. */
function furtherSeconds(aiming: number): number {
  return Math.max(0, aiming - 1) * FURTHER_FINGER_SECONDS;
}

function aimedSeconds({ distanceMm, roomMm }: { readonly distanceMm: number; readonly roomMm: number }): number {
  return AIMED_MOVEMENT.startSeconds + AIMED_MOVEMENT.secondsPerBit * Math.log2(distanceMm / roomMm + 1);
}
