/** How somebody wants to hear an exercise. */
export interface PlayOptions {
  /** Of the tempo as written, or of the ladder's step. Unit: percent. */
  readonly percent: number;
  /** Each time through at the next tempo of the exercise. */
  readonly ladder: boolean;
  /** The selected bars again and again. */
  readonly loop: boolean;
  readonly countIn: boolean;
  readonly metronome: boolean;
  /** Long and short where the lesson swings; else as written. */
  readonly swing: boolean;
  readonly tune: boolean;
  readonly accompaniment: boolean;
}

/** Slowest and fastest that an exercise is played at. Unit: percent. */
export const PERCENT = { least: 25, most: 150, step: 5 } as const;

export const USUAL_OPTIONS: PlayOptions = {
  percent: 100,
  ladder: false,
  loop: false,
  countIn: true,
  metronome: false,
  swing: true,
  tune: true,
  accompaniment: true,
};

/** Bars of a performance in their turn: from the first up to, and not with, the last. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}
