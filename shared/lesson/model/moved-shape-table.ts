/**
 * What a shape on another instrument costs against the one that the lesson has. Unit: points; one point is as bad as one point of
 * difficulty. Common practice, no source; what comes of it is held by the player cases and by charts of usual shapes in the tests.
 */
export const MOVED_SHAPE_POINTS = {
  /** Each point of difficulty that the shape, or a change between two, is harder than the lesson's own. */
  harder: 1,
  /** Each point that a shape is easier by, beyond `easierFree`: a lesson for advanced hands stays one. */
  easier: 0.15,
  easierFree: 2,
  /** Each point of difficulty of a change, however hard the lesson's own is. */
  change: 0.15,
  /** No finger reaches it; or only with a stretch. */
  outOfReach: 60,
  stretched: 4,
  /** A tone of the chord is left out that the lesson's own shape has. */
  omitted: 2.5,
  /** A string is silent on an instrument of four strings. */
  silent: 3,
  /** On more than four strings: a silent string between two that sound. */
  silentInner: 1.5,
  /** On more than four strings: one of those is silent that the lesson's own instrument has as well, counted from string 1. */
  silentFinger: 1.2,
  /**
   * The note behind a stroke sounds, but not lowest: where strings stand in order, so that a bass is heard as one, on more than four of
   * them, which have most basses near by, or on few; and where they do not. A hand that leaps up the neck for a bass leaves its chords
   * behind: a teacher has the shape near by.
   */
  bassElsewhereOnMore: 5,
  bassElsewhereInOrder: 2.5,
  bassElsewhere: 0.6,
  /** An open string of a shape that has its own place is stopped: it was there to ring. */
  openLost: 0.7,
  /** Each place further down in the order of usual shapes: for a plain chord low on the neck, and for one that has its own place. */
  rank: 0.9,
  rankOfPlaced: 0.04,
  /** Each fret that the hand stands elsewhere on the neck. */
  region: 0.5,
  regionOfPlaced: 0.6,
  /** Another tone of the chord on top; and each half step that the top lies away from where the lesson's own has it. */
  otherTop: 0.2,
  otherTopOfPlaced: 2,
  topStepOfPlaced: 0.1,
} as const;

/** From this fret on a shape stands where it does on purpose, as one with a label does. Unit: frets. */
export const PLACED_FROM_FRET = 5;

/** So many shapes of a chord are weighed with its neighbours; and of those only what is hardly worse than the best by itself. Unit: points. */
export const MOST_CANDIDATES = 5;
export const CANDIDATE_MARGIN = 3;

/** So many frets around the lesson's own place are looked through for a shape that is placed. Unit: frets. */
export const REGION_FRETS = 3;
