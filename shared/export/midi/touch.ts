import { TICKS_PER_QUARTER } from './ticks.ts';

// All figures: common practice, no source.

/** A knock is over at once; most percussion sounds take no notice. Unit: ticks; a sixteenth. */
export const KNOCK_TICKS = TICKS_PER_QUARTER / 4;

/** A bend has come to its height after this part of its note, in so many steps. */
export const BEND = { partOfNote: 1 / 2, steps: 8 } as const;

/** Depth of vibrato, of 127. */
export const VIBRATO_DEPTH = 64;
