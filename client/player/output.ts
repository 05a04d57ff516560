import type { Recipe } from './sound/tone.ts';

/** A sound to be made. Times are those of the output's own clock, in seconds. */
export interface Ordered {
  readonly recipe: Recipe;
  readonly at: number;
  /** Absent: until it has died away. */
  readonly end?: number;
  /** A string has one sound at a time: the new one stops the old. */
  readonly string?: number;
  /** 0 to 1. */
  readonly loudness: number;
  /** Glides to its pitch from so many semitones away. */
  readonly glide?: number;
  /** Is bent up by so many semitones. */
  readonly bend?: number;
  readonly vibrato?: boolean;
}

/** A sound that was ordered and is still to come or to end. */
export interface Sounding {
  readonly at: number;
  /** Lets it end at another time; never later than it dies away. */
  endAt(time: number): void;
}

/** Where sounds go. A test stands in for it with a clock of its own. */
export interface Output {
  /** The time up to which sounds are already on their way. */
  now(): number;
  /** The time of what leaves the loudspeaker at this moment. */
  heard(): number;
  /** False while the browser holds sound back until the reader has done something on the page. */
  running(): boolean;
  /** Called by a gesture: from here on sound may be made. */
  wake(): void;
  /** Makes the samples beforehand, so that the order costs nothing. */
  prepare(recipe: Recipe): void;
  order(sound: Ordered): Sounding;
  /** Takes back what would begin at this time or later. */
  takeBack(from: number): void;
  /** Silence from this time on. */
  hush(at: number): void;
}

/** What wakes the player up. */
export interface Timing {
  /** Calls again and again until what it returns is called. */
  every(milliseconds: number, work: () => void): () => void;
  /** Calls before each picture of the screen until what it returns is called. */
  eachFrame(work: () => void): () => void;
  /** How far ahead sounds are ordered: further where the page is hidden and its timers are slow. Unit: s. */
  lookahead(): number;
}
