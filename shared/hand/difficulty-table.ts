/** How hard the hardest thing is, and whatever no hand of this size can do. Unit: points. Source: the lesson's own scale, 0 to 10. */
export const MOST_DIFFICULT = 10;

/** By fingers on the board, the thumb among them. Unit: points. Common practice, no source. */
export const POINTS_OF_FINGERS = [0, 1, 1.6, 2.3, 3.45, 4] as const;

/**
 * What else makes a shape hard. Unit: points. Common practice, no source: set so that a ukulele's first chords (C, Am, F) come to 1
 * or 2, its feared ones (E as 4-4-4-2, Bb as 3-2-1-1) and the guitar's full F to the middle of the scale, and a stretch near the
 * limit of the hand to 8 and more.
 */
export const SHAPE_POINTS = {
  /** The widest pair of fingers where it is just still at ease; below, with the square of its strain. */
  reachAtEase: 0.6,
  /** From there to the limit of the hand, and the power with which it grows: the last millimetres are the hard ones. */
  stretch: 9.4,
  stretchPower: 1.5,
  /** What fingers laid flat come near, and the effort (see `effort-table.ts`) that comes to half of it. */
  mostBarre: 5.5,
  halfBarreEffort: 4,
  /** For each effort of crowded fingers, and of fingers off their frets. */
  awkwardEffort: 0.8,
  /** The same of neighbouring fingers that changed places: others come first, but many are taught a first A so, and hold it well. */
  reversedEffort: 0.1,
} as const;

/**
 * What makes a change hard. Unit: points. Common practice, no source: without a tempo a change is never the hardest thing, however
 * much moves; one that takes all the time there is comes to 5 beside what moves.
 */
export const CHANGE_POINTS = {
  /** What the points come near when very much moves, and the effort that comes to half of it. */
  most: 6,
  halfEffort: 2.5,
  /** Of a change that needs all the time there is, and the power with which it grows with the share that it needs. */
  fullHurry: 5,
  hurryPower: 1.3,
} as const;

/**
 * Power of the mean by which the hardest moments lead. Unit: none. Common practice, no source: ten different moments, all equally
 * hard, come to a fifth more than one of them.
 */
export const HARDEST_LEADS_POWER = 12;

/** Words for a number: each band begins at its points. Unit: points. Common practice, no source. */
export const LEVEL_WORDS = [
  { from: 0, word: 'beginner' },
  { from: 2, word: 'elementary' },
  { from: 4, word: 'intermediate' },
  { from: 6, word: 'advanced' },
  { from: 8, word: 'expert' },
] as const;
