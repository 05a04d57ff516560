import { TICKS_PER_QUARTER } from './ticks.ts';

// How hard and how quickly things are played. All figures: common practice, no source.

/** Of 127. */
export const VELOCITY = {
  picked: 84,
  tune: 96,
  strummed: 74,
  knock: 88,
  accent: 22,
  restStroke: 8,
  light: -26,
} as const;

/** What the left hand alone makes sound is so much softer. */
export const SLURRED = 0.7;

/** A quick hammer-on, pull-off or slide comes this soon after the note, and a trill changes so fast. Unit: ticks; a 32nd. */
export const QUICK_TICKS = TICKS_PER_QUARTER / 8;

/** A quick move takes no more of its note than this. */
export const MOST_OF_NOTE = 1 / 4;

/** A knock is over at once; most percussion sounds take no notice. Unit: ticks; a sixteenth. */
export const KNOCK_TICKS = TICKS_PER_QUARTER / 4;

/** A bend has come to its height after this part of its note, in so many steps. */
export const BEND = { partOfNote: 1 / 2, steps: 8 } as const;

/** Depth of vibrato, of 127. */
export const VIBRATO_DEPTH = 64;
