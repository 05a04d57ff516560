import { ALL_FINGERS, fingerState, type PlacedHand } from './change-between.ts';
import { fingersEffort, shiftEffort, travelEffort } from './change-cost.ts';
import type { Finger } from './finger.ts';
import { type FingerState, fingerMove, handShift, holdsHand } from './finger-move.ts';
import type { Press } from './fingering.ts';
import type { NeckInMm } from './neck-in-mm.ts';

/** Ways to hold one chord, and the states that each finger has in them: there are far fewer of these than ways. */
export interface PlacedHands {
  readonly hands: readonly PlacedHand[];
  readonly fingers: readonly FingerStates[];
  /** Frets that are the index finger's in them, and by hand its place among these. */
  readonly positions: readonly (number | undefined)[];
  readonly positionOfHand: readonly number[];
}

interface FingerStates {
  readonly finger: Finger;
  readonly states: readonly FingerState[];
  /** By hand, its place among the states. */
  readonly ofHand: readonly number[];
}

export function placedHands(hands: readonly PlacedHand[]): PlacedHands {
  const positions = [...new Set(hands.map(({ positionFret }) => positionFret))];
  return {
    hands,
    fingers: ALL_FINGERS.map((finger) => fingerStates(hands, finger)),
    positions,
    positionOfHand: hands.map(({ positionFret }) => positions.indexOf(positionFret)),
  };
}

function fingerStates(hands: readonly PlacedHand[], finger: Finger): FingerStates {
  const states: FingerState[] = [];
  const ofHand = hands.map(({ presses, positionFret }) => {
    const press = presses.find((one) => one.finger === finger);
    const known = states.findIndex((state) => state.positionFret === positionFret && samePress(state.press, press));
    return known >= 0 ? known : states.push(fingerState(press, positionFret)) - 1;
  });
  return { finger, states, ofHand };
}

function samePress(one: Press | undefined, other: Press | undefined): boolean {
  return one?.fret === other?.fret && one?.from === other?.from && one?.to === other?.to;
}

/**
 * What the changes cost from every way to hold one chord to every way of another, at `from * ways of the other + to`: the same as
 * `changeOf` says, each finger's part worked out once for its states. Unit: effort.
 */
export function arcsBetween(neck: NeckInMm, from: PlacedHands, to: PlacedHands): Float64Array {
  const width = to.hands.length;
  const effort = new Float64Array(from.hands.length * width);
  const held = new Uint8Array(effort.length);
  for (const [row, before] of from.fingers.entries()) {
    const after = to.fingers[row];
    if (after === undefined) continue;
    const parts = partsOf(neck, before, after);
    if (parts.length === 0) continue;
    let at = 0;
    for (const one of before.ofHand) {
      for (const other of after.ofHand) {
        const part = parts[one * after.states.length + other];
        if (part !== undefined) {
          effort[at] = (effort[at] ?? 0) + part.effort;
          if (part.holds) held[at] = 1;
        }
        at += 1;
      }
    }
  }
  const shifts = from.positions.flatMap((one) => to.positions.map((other) => shiftEffort(handShift(neck, one, other))));
  let at = 0;
  for (const one of from.positionOfHand) {
    for (const other of to.positionOfHand) {
      if (held[at] === 0) effort[at] = (effort[at] ?? 0) + (shifts[one * to.positions.length + other] ?? 0);
      at += 1;
    }
  }
  return effort;
}

interface FingerPart {
  readonly effort: number;
  readonly holds: boolean;
}

/** By the state before and then the state after; none where the finger presses in no way of either chord. */
function partsOf(neck: NeckInMm, before: FingerStates, after: FingerStates): readonly (FingerPart | undefined)[] {
  const presses = ({ press }: FingerState) => press !== undefined;
  if (!before.states.some(presses) && !after.states.some(presses)) return [];
  return before.states.flatMap((one) =>
    after.states.map((other) => {
      const move = fingerMove(neck, before.finger, one, other);
      return move && { effort: fingersEffort(move) + travelEffort(move), holds: holdsHand(move) };
    }),
  );
}
