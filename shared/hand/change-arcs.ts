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
  return arcRows(neck, from, to)(0, from.hands.length);
}

/** The same for the ways from one to another that is not included: of long lists a part at a time. */
export function arcRows(
  neck: NeckInMm,
  from: PlacedHands,
  to: PlacedHands,
): (first: number, end: number) => Float64Array {
  const width = to.hands.length;
  const fingers = from.fingers.flatMap((before, row) => {
    const after = to.fingers[row];
    const parts = after === undefined ? undefined : partsOf(neck, before, after);
    return after === undefined || parts === undefined ? [] : [{ before, after, parts }];
  });
  const shifts = from.positions.flatMap((one) => to.positions.map((other) => shiftEffort(handShift(neck, one, other))));
  return (first, end) => {
    const effort = new Float64Array((end - first) * width);
    const held = new Uint8Array(effort.length);
    for (const { before, after, parts } of fingers) {
      let at = 0;
      for (let row = first; row < end; row += 1) {
        const states = (before.ofHand[row] ?? 0) * after.states.length;
        for (const other of after.ofHand) {
          effort[at] = (effort[at] ?? 0) + (parts.effort[states + other] ?? 0);
          if (parts.holds[states + other] === 1) held[at] = 1;
          at += 1;
        }
      }
    }
    let at = 0;
    for (let row = first; row < end; row += 1) {
      const positions = (from.positionOfHand[row] ?? 0) * to.positions.length;
      for (const other of to.positionOfHand) {
        if (held[at] === 0) effort[at] = (effort[at] ?? 0) + (shifts[positions + other] ?? 0);
        at += 1;
      }
    }
    return effort;
  };
}

/** By the state before and then the state after: what the finger does costs so much, and 1 where the hand goes along with it. */
interface FingerParts {
  readonly effort: Float64Array;
  readonly holds: Uint8Array;
}

/** Nothing where the finger presses in no way of either chord. */
function partsOf(neck: NeckInMm, before: FingerStates, after: FingerStates): FingerParts | undefined {
  const presses = ({ press }: FingerState) => press !== undefined;
  if (!before.states.some(presses) && !after.states.some(presses)) return undefined;
  const size = before.states.length * after.states.length;
  const parts = { effort: new Float64Array(size), holds: new Uint8Array(size) };
  let at = 0;
  for (const one of before.states) {
    for (const other of after.states) {
      const move = fingerMove(neck, before.finger, one, other);
      if (move !== undefined) {
        parts.effort[at] = fingersEffort(move) + travelEffort(move);
        if (holdsHand(move)) parts.holds[at] = 1;
      }
      at += 1;
    }
  }
  return parts;
}
