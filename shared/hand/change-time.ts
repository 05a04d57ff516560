import type { Change, FingerMove, HandShift } from './change.ts';
import { LEANING_FRETS } from './change-table.ts';
import type { Press } from './fingering.ts';

/**
 * What one string gives a finger beyond the time of the whole hand, where strings are picked one after another. Common practice, no
 * source: in an arpeggio a finger may leave once its string has sounded for the last time, and only the finger whose string sounds
 * first must stand at the change. Unit: s, each nothing or more.
 */
export interface StringSpare {
  /** So much before the hand's last stroke on the old shape the string is done with. */
  readonly before: number;
  /** So much after the hand's first stroke on the new shape it is needed. */
  readonly after: number;
}

/** The time for a change. */
export interface ChangeTime {
  /** Of the whole hand: from the last stroke on the old shape to the first on the new one. Unit: s. */
  readonly seconds: number;
  /** In chart order; absent where every string has the time of the whole hand, as in strums. */
  readonly strings?: readonly StringSpare[];
}

/**
 * The spare time of each finger, in the order of the moves: its old strings need it no longer, its new ones not yet. Of several
 * strings the narrowest counts. One that comes from the air may land when its new strings have sounded under the old shape, and one
 * that goes into the air must be off its old ones before they sound anew. Where the hand jumps no finger sets out before all can.
 */
export function fingerSpares({ moves, shift }: Change, { strings }: ChangeTime): readonly StringSpare[] {
  if (strings === undefined) return moves.map(() => NOTHING_SPARE);
  const [old, fresh] = [before(moves), after(moves)];
  const together = jumps(shift);
  return moves.map((move): StringSpare => {
    const [left, side] = move.kind === 'lands' ? ([move.to, fresh] as const) : ([move.from, old] as const);
    const [taken, other] = move.kind === 'lifts' ? ([move.from, old] as const) : ([move.to, fresh] as const);
    return {
      before: together ? 0 : spare(strings, left, side, 'before'),
      after: spare(strings, taken, other, 'after'),
    };
  });
}

/**
 * The spare time of the hand’s way along the neck: none where it jumps. One that only leans over goes along with its fingers, from
 * when the first may leave to when the last must have arrived.
 */
export function shiftSpare({ moves, shift }: Change, { strings }: ChangeTime): StringSpare {
  if (strings === undefined || jumps(shift)) return NOTHING_SPARE;
  const widest = (presses: readonly Press[], side: keyof StringSpare) =>
    Math.max(0, ...presses.map((press) => spare(strings, press, presses, side)));
  return { before: widest(before(moves), 'before'), after: widest(after(moves), 'after') };
}

const NOTHING_SPARE: StringSpare = { before: 0, after: 0 };

/** Farther than a hand can lean over: it goes as one, and its fingers aim on the way. */
export function jumps(shift: HandShift | undefined): boolean {
  return shift !== undefined && Math.abs(shift.toFret - shift.fromFret) > LEANING_FRETS;
}

function before(moves: readonly FingerMove[]): readonly Press[] {
  return moves.flatMap((move) => (move.kind === 'lands' ? [] : [move.from]));
}

function after(moves: readonly FingerMove[]): readonly Press[] {
  return moves.flatMap((move) => (move.kind === 'lifts' ? [] : [move.to]));
}

/** The least of a finger's strings. Where another one stops a string higher up, what lies under this one does not count. */
function spare(
  strings: readonly StringSpare[],
  press: Press,
  presses: readonly Press[],
  side: keyof StringSpare,
): number {
  let least: number | undefined;
  for (let string = press.from; string <= press.to; string += 1) {
    if (presses.some(({ fret, from, to }) => fret > press.fret && from <= string && string <= to)) continue;
    const own = strings[string]?.[side] ?? 0;
    if (least === undefined || own < least) least = own;
  }
  return least ?? 0;
}
