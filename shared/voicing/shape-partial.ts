import type { SilenceCost } from './shape-silence.ts';
import { costOfMuting, costOfSounding } from './shape-silence.ts';

/**
 * What is known of a shape while its strings get their frets one after another. Sets of tones are masks: bit n for the tone
 * n semitones above the root. The search fills the same few records again and again: a fresh one for each of the many beginnings
 * that come to nothing would be most of its work.
 */
export interface PartialShape {
  heard: number;
  /** Tones that more than one string sounds. */
  twice: number;
  lowestMidi: number;
  highestMidi: number;
  sounding: number;
  /** Silent strings since the last that sounds. */
  silentSince: number;
  /** What silence costs so far. Unit: points. */
  silence: number;
  /** The fewest that hold what is stopped. */
  fingers: number;
  highFret: number;
  /** Frets at which a finger lies that can lie on across the next string: bit n for fret n. */
  across: number;
  /** True when the lowest fret of the window is stopped. */
  anchored: boolean;
}

/** No string has its fret yet. */
export function nothingYet(): PartialShape {
  return {
    heard: 0,
    twice: 0,
    lowestMidi: 127,
    highestMidi: 0,
    sounding: 0,
    silentSince: 0,
    silence: 0,
    fingers: 0,
    highFret: 0,
    across: 0,
    anchored: false,
  };
}

/** `next` becomes `here` with one more string, which sounds. What its finger does is for the caller to add. */
export function addSounding(
  here: PartialShape,
  next: PartialShape,
  cost: SilenceCost,
  midi: number,
  tone: number,
): void {
  next.heard = here.heard | tone;
  next.twice = here.twice | (here.heard & tone);
  next.lowestMidi = Math.min(here.lowestMidi, midi);
  next.highestMidi = Math.max(here.highestMidi, midi);
  next.silence = here.silence + costOfSounding(cost, here.sounding, here.silentSince);
  next.sounding = here.sounding + 1;
  next.silentSince = 0;
  next.fingers = here.fingers;
  next.highFret = here.highFret;
  next.across = here.across;
  next.anchored = here.anchored;
}

/** `next` becomes `here` with one more string, which is silent. */
export function addMuted(here: PartialShape, next: PartialShape, cost: SilenceCost): void {
  next.heard = here.heard;
  next.twice = here.twice;
  next.lowestMidi = here.lowestMidi;
  next.highestMidi = here.highestMidi;
  next.silence = here.silence + costOfMuting(cost, here.sounding, here.silentSince);
  next.sounding = here.sounding;
  next.silentSince = here.silentSince + 1;
  next.fingers = here.fingers;
  next.highFret = here.highFret;
  next.across = here.across;
  next.anchored = here.anchored;
}
