import type { Change, FingerMove, HandShift } from './change.ts';
import { AIMED_MOVEMENT, EASY_SHARE, FURTHER_FINGER_SECONDS, LIFT_SECONDS } from './change-table.ts';
import { type ChangeTime, fingerSpares, jumps, type StringSpare, shiftSpare } from './change-time.ts';

/** A learner's hand has time to spare; only a practised one gets there; or it is beyond a practised one too. */
export type ChangeVerdict = 'easy' | 'quick' | 'too-quick';

/** What there is least time for: one finger's move, or the way of the whole hand along the neck. */
export type Tightest =
  | { readonly kind: 'finger'; readonly move: FingerMove }
  | { readonly kind: 'hand'; readonly shift: HandShift };

export interface JudgedChange {
  readonly verdict: ChangeVerdict;
  /** Of what takes most of its time: what a practised hand needs for it, an estimate. Unit: s. */
  readonly neededSeconds: number;
  /** What there is for it. Unit: s. */
  readonly seconds: number;
  /** The first of equals; absent where no finger does anything. */
  readonly tightest?: Tightest;
}

/**
 * Is there time for a change? Each finger is held against its own time, and what takes most of its time decides; where all strings have
 * the same time, as in strums, that is the longest move. Fingers that must stand by the same moment aim at once and cost each other
 * time: so every moment at which one must stand is looked at with all that must stand by then. In a jump all aim on the way.
 * A longer way or less time never makes the answer easier, more time for single strings never harder; where no finger does anything,
 * any time is enough. Where the answer is shown, `CAUTION_ON_STRETCH` belongs beside it: hurry is a load.
 */
export function judgeChange(change: Change, time: ChangeTime): JudgedChange {
  const ways = waysOf(change, time);
  const together = jumps(change.shift);
  const moments = [...new Set(ways.map(({ after }) => after))];
  let worst: JudgedChange = { verdict: 'easy', neededSeconds: 0, seconds: time.seconds };
  for (const moment of moments) {
    const due = ways.filter(({ after }) => after <= moment);
    const further = furtherSeconds(together ? ways : due);
    for (const { aloneSeconds, before, tightest } of due) {
      const neededSeconds = aloneSeconds + further;
      const seconds = time.seconds + before + moment;
      const hurry = hurryOf(neededSeconds, seconds);
      const most = hurryOf(worst.neededSeconds, worst.seconds);
      // Without any time every hurry is without end: then the longest counts.
      if (hurry < most || (hurry === most && neededSeconds <= worst.neededSeconds)) continue;
      worst = { verdict: judgeHurry(hurry), neededSeconds, seconds, tightest };
    }
  }
  return worst;
}

/** A finger, or the hand, that goes somewhere: how long it needs by itself, and what it has beyond the time of the whole hand. Unit: s. */
interface Way extends StringSpare {
  readonly aloneSeconds: number;
  readonly aims: number;
  readonly tightest: Tightest;
}

function waysOf(change: Change, time: ChangeTime): readonly Way[] {
  const { moves, shift } = change;
  const spares = fingerSpares(change, time);
  const fingers = moves.flatMap((move, at): readonly Way[] => {
    const spare = spares[at];
    if (move.kind === 'stays' || spare === undefined) return [];
    return [{ ...spare, aloneSeconds: fingerSeconds(move), aims: aims(move), tightest: { kind: 'finger', move } }];
  });
  if (shift === undefined) return fingers;
  const hand = { aloneSeconds: shiftSeconds(shift), aims: 0, tightest: { kind: 'hand', shift } } as const;
  return [{ ...shiftSpare(change, time), ...hand }, ...fingers];
}

function judgeHurry(hurry: number): ChangeVerdict {
  return hurry <= EASY_SHARE ? 'easy' : hurry <= 1 ? 'quick' : 'too-quick';
}

/** Share of the time there is that a change needs: more than 1 is beyond a practised hand. Without end where there is no time. */
export function hurryOf(neededSeconds: number, seconds: number): number {
  if (neededSeconds === 0) return 0;
  return seconds > 0 ? neededSeconds / seconds : Number.POSITIVE_INFINITY;
}

/** Of the whole hand, where all strings have the same time: all fingers set out together, and the change is over when the last has arrived. Unit: s. */
export function neededSecondsFor({ moves, shift }: Change): number {
  let longest = shiftSeconds(shift);
  for (const move of moves) longest = Math.max(longest, fingerSeconds(move));
  return longest + furtherSeconds(moves.map((move) => ({ aims: aims(move) })));
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
function furtherSeconds(ways: readonly { readonly aims: number }[]): number {
  const aiming = ways.reduce((sum, { aims }) => sum + aims, 0);
  return Math.max(0, aiming - 1) * FURTHER_FINGER_SECONDS;
}

function aimedSeconds({ distanceMm, roomMm }: { readonly distanceMm: number; readonly roomMm: number }): number {
  return AIMED_MOVEMENT.startSeconds + AIMED_MOVEMENT.secondsPerBit * Math.log2(distanceMm / roomMm + 1);
}
