import type { ScoreEvent } from './timeline.ts';

// From 0 to 1. All figures here: common practice, no source.

const PLUCK = 0.65;
const DOWN = 0.62;
const UP = 0.54;
const HIT = 0.62;
/** A tune is to be heard over what accompanies it. */
const TUNE = 0.1;
const ACCENT = 0.22;
const LIGHT = -0.28;
const REST_STROKE = 0.08;

export const LOUDNESS = {
  /** The left hand makes a sound from the one before. */
  slurred: (struck: number): number => Math.round(struck * 75) / 100,
} as const;

/** How loud an event sounds on a string; strings are of no account where it has none of its own. */
export function loudnessOf(event: ScoreEvent, string: number): number {
  switch (event.kind) {
    case 'notes': {
      const note = event.notes.find((one) => one.string === string);
      const accent = note?.accent === true ? ACCENT : 0;
      return bounded(
        PLUCK + (event.layer === 'tune' ? TUNE : 0) + accent + (note?.restStroke === true ? REST_STROKE : 0),
      );
    }
    case 'strum':
      return bounded(
        (event.direction === 'down' ? DOWN : UP) + (event.accent ? ACCENT : 0) + (event.light ? LIGHT : 0),
      );
    case 'chunk':
    case 'roll':
    case 'shape-slide':
    case 'hit':
      return bounded(HIT + (event.accent ? ACCENT : 0));
    default:
      return PLUCK;
  }
}

function bounded(loudness: number): number {
  return Math.round(Math.min(1, Math.max(0.1, loudness)) * 100) / 100;
}
