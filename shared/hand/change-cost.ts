import type { ChangeCost, FingerMove } from './change.ts';
import { CHANGE_EFFORT, TRAVEL_EFFORT_PER_MM } from './change-table.ts';

/** The shift is that of the whole hand, in mm; absent where the hand keeps its place. A change in which all fingers stay costs 0. */
export function changeCost(moves: readonly FingerMove[], shiftMm: number | undefined): ChangeCost {
  let fingers = 0;
  let travel = 0;
  for (const move of moves) {
    if (move.kind === 'stays') continue;
    fingers += CHANGE_EFFORT[move.kind];
    // Where a finger goes that has let go is nobody's concern.
    if (move.kind === 'lifts') continue;
    const perMm = move.kind === 'slides' ? TRAVEL_EFFORT_PER_MM.alongString : TRAVEL_EFFORT_PER_MM.throughAir;
    travel += perMm * move.distanceMm;
  }
  const shift = shiftMm === undefined ? 0 : CHANGE_EFFORT.shift + TRAVEL_EFFORT_PER_MM.hand * shiftMm;
  return { fingers, travel, shift, total: fingers + travel + shift };
}
