import type { FingerMove, HandShift } from './change.ts';
import { CHANGE_EFFORT, LEAN_MM, TRAVEL_EFFORT_PER_MM } from './change-table.ts';

/** What a finger's act costs, wherever it goes; nothing for one that stays. Unit: effort. */
export function fingersEffort(move: FingerMove): number {
  if (move.kind === 'stays') return 0;
  const act = CHANGE_EFFORT[move.kind];
  if (move.kind === 'lifts' || move.kind === 'slides') return act;
  return act + (move.to.to - move.to.from) * CHANGE_EFFORT.furtherString;
}

/** What its way costs. Where a finger goes that has let go is nobody's concern. Unit: effort. */
export function travelEffort(move: FingerMove): number {
  if (move.kind === 'stays' || move.kind === 'lifts') return 0;
  const perMm = move.kind === 'slides' ? TRAVEL_EFFORT_PER_MM.alongString : TRAVEL_EFFORT_PER_MM.throughAir;
  return perMm * move.distanceMm;
}

/** What the way of the whole hand costs, beyond what it gives by leaning. Unit: effort. */
export function shiftEffort(shift: HandShift | undefined): number {
  if (shift === undefined || shift.distanceMm <= LEAN_MM) return 0;
  return CHANGE_EFFORT.shift + TRAVEL_EFFORT_PER_MM.hand * (shift.distanceMm - LEAN_MM);
}
