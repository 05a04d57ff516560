/**
 * Where the finder of shapes stops looking. Everything within these limits is found; nothing beyond them is.
 * Frets are looked for up to the end of the neck.
 */

/** Frets between the lowest and the highest that are stopped: five neighbouring ones. Source: four fingers and a stretch, common practice, no source. */
export const MOST_SPAN_FRETS = 4;

/** Fingers of the fretting hand; the thumb is not counted. Source: common practice, no source. */
export const MOST_FINGERS = 4;

/** Fewest strings that sound, for a chord of three tones or more and for one of two. Source: as many as the chord needs to be one. */
export function fewestSounding(toneCount: number): number {
  return toneCount <= 2 ? 2 : 3;
}
