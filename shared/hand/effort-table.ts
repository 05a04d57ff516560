/**
 * What makes a fingering less welcome. Unit: of effort, where one more finger on the board is 1. Common practice, no source: few terms,
 * each of which a teacher would name, weighed so that the fingerings of an open data set of chord shapes come first.
 */
export const EFFORT = {
  /** Each finger on the board. */
  finger: 1,
  /** All four on the board, none left free. */
  noFingerFree: 0.6,
  /** The widest pair of fingers, times its strain squared (1 where it is no longer at ease, 4 at the limit). */
  strain: 0.9,
  /** The index finger laid flat across strings. */
  indexBarre: 1.4,
  /** Another finger laid flat: less strong, and in the way of its neighbours. */
  middleBarre: 2.6,
  ringBarre: 2.8,
  littleBarre: 4.5,
  /** Each string that a barre makes sound, from the third on. */
  barredString: 0.5,
  /** A string that another finger stops higher, or that is silent, under a barre of any finger but the index. */
  bridgedString: 1,
  /** Strings bridged by an index finger that lies flat for two alone: with `indexBarre` more than one more finger, so little is gained. */
  thinBridge: 0.4,
  /** Over such a bridge, for each fret by which a finger is off its own, on top of `offItsFret`: the flat finger holds the hand. */
  offItsFretByBridge: 0.5,
  /** A barre that bends up again beside a string it would spoil. */
  liftedBarre: 1.6,
  /** Each fret by which a finger is off its own in the best position of the hand, where every finger has one fret. */
  offItsFret: 0.3,
  /** Each fret by which one finger alone draws the hand from the first position, where its neighbours in the music are held. */
  awayFromNut: 0.1,
  /** Two neighbouring fingers in one fret, the higher one nearer the bass side. */
  reversed: 5,
  /** Tips in one fret that have no room beside each other. */
  crowded: 0.5,
  /** The little finger, the weakest. */
  littleFinger: 0.05,
  /** The thumb over the edge of the neck. */
  thumb: 1.5,
  /** A string that is not to sound between strings that do, and that nothing touches. */
  untouchedString: 0.3,
} as const;
