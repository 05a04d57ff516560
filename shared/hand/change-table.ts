/**
 * How far above the strings a finger hangs that is not pressing. Unit: mm. Source: common practice, no source: teachers ask for
 * fingers that stay low, about a finger's width.
 */
export const HOVER_MM = 12;

/**
 * What a change asks of the fingers, for each of them. Unit: of effort, where one more finger on the board is 1 (as in
 * `effort-table.ts`). Common practice, no source; the order is what teachers say: a finger that stays costs nothing, one that keeps
 * its string little, one that must find a new place most.
 */
export const CHANGE_EFFORT = {
  /** Let go. */
  lifts: 0.05,
  /** Kept on its string, to another fret. */
  slides: 0.05,
  /** Laid flat or got up again in its fret. */
  rolls: 0.12,
  /** Put down from the air. */
  lands: 0.15,
  /** Taken from one place and put down at another. */
  moves: 0.2,
  /** For each further string under a finger that lands, moves or rolls: a finger laid flat must lie well on all of them at once. */
  furtherString: 0.2,
  /** The index finger's fret becomes another, and the thumb behind the neck goes with it. */
  shift: 0.2,
} as const;

/**
 * So far the index finger's fret may move while the thumb stays where it is. Unit: mm. Source: common practice, no source: one fret
 * near the nut, as from F to G on a ukulele.
 */
export const LEAN_MM = 30;

/**
 * So far two places of the hand may be from each other and still be held at once, one finger on its old string and another on its new
 * one. Unit: frets of the index finger. Common practice, no source: the hand then leans over with its fingers; farther it must go as one.
 */
export const LEANING_FRETS = 1;

/** What a mm of way costs. Unit: effort per mm. Common practice, no source: along a string is surer than through the air. */
export const TRAVEL_EFFORT_PER_MM = {
  alongString: 0.002,
  throughAir: 0.004,
  /** Of the whole hand, beside its fingers' ways. */
  hand: 0.006,
} as const;

/**
 * Time of one aimed movement: start + slope · log2(distance / width + 1). The law: P. M. Fitts 1954, J Exp Psychol 47(6):381–391, in
 * the form of I. S. MacKenzie 1992, Human-Computer Interaction 7:91–139; for a target of two widths the smaller counts (MacKenzie &
 * Buxton 1992, CHI). References from memory.
 */
export const AIMED_MOVEMENT = {
  /** Unit: s. Source: common practice, no source. */
  startSeconds: 0.05,
  /** Unit: s per bit. Source: about what Fitts found for tapping with a light stylus; from memory. */
  secondsPerBit: 0.1,
} as const;

/** Letting a string go needs no aim. Unit: s. Source: common practice, no source. */
export const LIFT_SECONDS = 0.05;

/** Fingers aim at once, but not all as surely as one: for each one after the first. Unit: s. Source: common practice, no source. */
export const FURTHER_FINGER_SECONDS = 0.04;

/**
 * Up to this share of the time there is, the time a change needs is easy: a learner needs two or three times what a practised hand
 * does. Unit: none. Source: common practice, no source.
 */
export const EASY_SHARE = 0.4;

/**
 * How much more the fingering of a chord counts than a change, when the fingers of a sequence are chosen. Unit: none. Common practice,
 * no source: the fingers that are taught for a chord stay, unless others save much on the way to the next.
 */
export const FINGERING_WEIGHT = 2;
