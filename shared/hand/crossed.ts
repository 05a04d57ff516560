/** A note stopped in a position, or open, with the finger that has it: 0 or nothing where it needs none. */
export interface FingeredNote {
  /** A place in chart order. */
  readonly stringIndex: number;
  readonly fret: number;
  readonly finger: number | 'T' | undefined;
}

/**
 * True for two notes on one string whose fingers are crossed: the higher fret has the lower finger, and the hand has not moved on by a
 * whole position between them. Source: common practice, no source: in a position each finger has its fret, four frets in all. The thumb
 * and an open string have no place in it.
 */
export function areCrossed(one: FingeredNote, other: FingeredNote): boolean {
  if (one.stringIndex !== other.stringIndex) return false;
  const [low, high] = one.fret < other.fret ? [one, other] : [other, one];
  const [behind, front] = [low.finger, high.finger];
  if (typeof behind !== 'number' || typeof front !== 'number' || front >= behind) return false;
  const frets = high.fret - low.fret;
  return frets > 0 && frets + behind - front < POSITION_FRETS;
}

/** Frets of a position: one for each finger. Source: common practice, no source. */
const POSITION_FRETS = 4;
