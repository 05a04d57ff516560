/**
 * What a place for a note on another instrument costs. Unit: points, less is better. Common practice, no source: the tune stays
 * inside the shape as far as it can, low on the neck, and runs across the strings where it did.
 */
export const MOVED_NOTE_POINTS = {
  /** Not where the shape sounds it: an open string that the shape has open or silent; a finger that reaches it; a string let go. */
  open: 0.3,
  added: 1,
  letGo: 2.5,
  /** No finger reaches it while the shape is held. */
  outside: 6,
  /** The hand is not told what it holds: each fret up the neck, and each fret that it moves beyond four. */
  fret: 0.06,
  move: 1,
  /** A string of its own for each note, where the lesson has that, is lost. */
  sameString: 1.5,
  /** The lesson's own place sounds the same there, and another one is taken. */
  otherPlace: 2.5,
  /** What the plucking hand does changes: another string than the lesson's own for a note that a finger is written for. */
  otherString: 1,
  /** Another voice begins a note on this string at the same time, or has one that sounds on. */
  sameTime: 40,
  soundsOn: 3,
  /** The whole tune an octave away; a single note an octave away from the others; what the left hand adds is left out. */
  octave: 4,
  noteApart: 6,
  withoutTechnique: 14,
} as const;

/** Frets that a hand has under its fingers. Unit: frets. Source: one finger a fret, as every method has it. */
export const HAND_FRETS = 4;

/** From so many notes on, each on another string than the one before and no farther than this, it is a run across strings. */
export const RUN_NOTES = 3;
export const RUN_STEP_SEMITONES = 4;
