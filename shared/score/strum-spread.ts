// A strum is not one moment: the hand meets one string after another. All figures here: common practice, no source.

/** One stroke over several strings. */
export interface Stroke {
  /** How many strings it meets. */
  readonly strings: number;
  readonly direction: 'down' | 'up';
  /** Spread on purpose, so that every string is heard by itself. */
  readonly slow: boolean;
  /** From the stroke until the next sound of its row. Unit: ms. */
  readonly lengthMs: number;
  /** One beat at the tempo played. Unit: ms. */
  readonly beatMs: number;
}

/** How a hand crosses the strings. */
interface Crossing {
  /** From string to string, as a part of the beat: a slow piece is strummed more broadly. */
  readonly ofBeat: number;
  /** Bounds of the same: faster than this is heard as one sound, slower as a broken chord. Unit: ms. */
  readonly leastMs: number;
  readonly mostMs: number;
  /** The whole stroke takes no more of its own length than this. */
  readonly mostOfLength: number;
}

/** Crossing of one string after another. */
const PLAIN: Crossing = { ofBeat: 1 / 60, leastMs: 4, mostMs: 14, mostOfLength: 1 / 4 };
const SLOW: Crossing = { ofBeat: 1 / 10, leastMs: 30, mostMs: 90, mostOfLength: 1 / 2 };

/** The hand swings up more lightly, and in less time, than it falls. */
const UP_TO_DOWN = 3 / 4;

/**
 * When each string of a stroke sounds, in the order in which the hand meets them, counted from the stroke's own moment. The first
 * string sounds on it. Unit: ms.
 */
export function strumOffsets({ strings, direction, slow, lengthMs, beatMs }: Stroke): readonly number[] {
  const { ofBeat, leastMs, mostMs, mostOfLength } = slow ? SLOW : PLAIN;
  const wanted = Math.min(mostMs, Math.max(leastMs, beatMs * ofBeat)) * (direction === 'up' ? UP_TO_DOWN : 1);
  const gap = strings < 2 ? 0 : Math.min(wanted, (lengthMs * mostOfLength) / (strings - 1));
  return Array.from({ length: strings }, (_, place) => place * gap);
}
