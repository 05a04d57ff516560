/** A fret as the hand holds it, counted from the nut or the capo; `muted` means the string is not to sound. */
export type Fret = number | 'muted';

/**
 * Frets for every string, in chart order: highest-numbered string first, string 1 last, as a chart is read left to right.
 * A muted string keeps its place, so that every other string keeps its number.
 */
export type Shape = readonly Fret[];

/** `0-4-3-2`; a muted string is `x`. The spelling that the lesson file and all messages use. */
export function printShape(shape: Shape): string {
  return shape.map((fret) => (fret === 'muted' ? 'x' : String(fret))).join('-');
}

/** Number of the string (1 is nearest the floor) that stands at `index` in chart order on an instrument of `stringCount` strings. */
export function stringNumber(index: number, stringCount: number): number {
  return stringCount - index;
}
