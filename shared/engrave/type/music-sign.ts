import type { Ink, PathItem, PathStep } from '../drawing.ts';
import { MUSIC_SIGNS } from './music-signs.ts';

export type MusicSignName = keyof typeof MUSIC_SIGNS;

/** A sign in its size on the sheet, around its origin. Unit: mm. */
export interface SizedSign {
  readonly item: PathItem;
  readonly advance: number;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The sign of the music face in a size: `space` is the distance between two lines of a staff of five. Unit: mm. */
export function sizedSign(name: MusicSignName, space: number, ink: Ink = 'strong'): SizedSign {
  const { advance, box, steps } = MUSIC_SIGNS[name];
  return {
    item: { kind: 'path', steps: steps.map((step) => scaled(step, space)), ink },
    advance: advance * space,
    left: box.left * space,
    top: box.top * space,
    right: box.right * space,
    bottom: box.bottom * space,
  };
}

function scaled(step: PathStep, by: number): PathStep {
  switch (step[0]) {
    case 'Z':
      return step;
    case 'C':
      return ['C', step[1] * by, step[2] * by, step[3] * by, step[4] * by, step[5] * by, step[6] * by];
    default:
      return [step[0], step[1] * by, step[2] * by];
  }
}
