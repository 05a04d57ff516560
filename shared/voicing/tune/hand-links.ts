import { arcsBetween, type PlacedHands } from '../../hand/change-arcs.ts';
import { neededSecondsFor } from '../../hand/change-speed.ts';
import { FURTHER_FINGER_SECONDS } from '../../hand/change-table.ts';
import { fingerMove, handShift, holdsHand } from '../../hand/finger-move.ts';
import type { NeckInMm } from '../../hand/neck-in-mm.ts';

/** What it takes to go from each of some hands to each of others, at `from * others + to`. */
export interface HandLinks {
  /** Unit: effort. */
  readonly effort: Float64Array;
  /** What a practised hand needs, an estimate. Unit: s. */
  readonly seconds: Float64Array;
}

/** The same as `changeOf` and `neededSecondsFor` say of each pair, each finger's part worked out once for its states. */
export function handLinks(neck: NeckInMm, from: PlacedHands, to: PlacedHands): HandLinks {
  const width = to.hands.length;
  const size = from.hands.length * width;
  const seconds = new Float64Array(size);
  const aiming = new Uint8Array(size);
  const holding = new Uint8Array(size);
  for (const [row, before] of from.fingers.entries()) {
    const after = to.fingers[row];
    if (after === undefined) continue;
    const parts = before.states.flatMap((one) =>
      after.states.map((other) => {
        const move = fingerMove(neck, before.finger, one, other);
        if (move === undefined) return undefined;
        const aims = move.kind === 'moves' || move.kind === 'lands' || move.kind === 'rolls';
        return { seconds: neededSecondsFor(changeOfMove(move)), aims: aims ? 1 : 0, holds: holdsHand(move) };
      }),
    );
    let at = 0;
    for (const one of before.ofHand) {
      for (const other of after.ofHand) {
        const part = parts[one * after.states.length + other];
        if (part !== undefined) {
          seconds[at] = Math.max(seconds[at] ?? 0, part.seconds);
          aiming[at] = (aiming[at] ?? 0) + part.aims;
          if (part.holds) holding[at] = 1;
        }
        at += 1;
      }
    }
  }
  const shifts = from.positions.flatMap((one) =>
    to.positions.map((other) => {
      const shift = handShift(neck, one, other);
      return shift === undefined ? 0 : neededSecondsFor({ moves: [], shift, cost: NO_COST });
    }),
  );
  let at = 0;
  for (const one of from.positionOfHand) {
    for (const other of to.positionOfHand) {
      const shift = holding[at] === 1 ? 0 : (shifts[one * to.positions.length + other] ?? 0);
      seconds[at] = Math.max(seconds[at] ?? 0, shift) + Math.max(0, (aiming[at] ?? 0) - 1) * FURTHER_FINGER_SECONDS;
      at += 1;
    }
  }
  return { effort: arcsBetween(neck, from, to), seconds };
}

const NO_COST = { fingers: 0, travel: 0, shift: 0, total: 0 };

function changeOfMove(move: NonNullable<ReturnType<typeof fingerMove>>): Parameters<typeof neededSecondsFor>[0] {
  return { moves: [move], cost: NO_COST };
}
