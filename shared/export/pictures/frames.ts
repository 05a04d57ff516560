import type { Box } from '../../engrave/drawing.ts';

/** A picture as large as the frame of a video: upright for telephones, or lying. */
export type FrameName = 'wide' | 'tall';

export interface VideoFrame {
  readonly width: number;
  readonly height: number;
  /** Width that lines of music are laid out for: the narrower, the larger they are shown. Unit: mm. */
  readonly musicMm: number;
  /** The most that a diagram or line of music is made larger. Unit: pixels for a millimetre. */
  readonly most: { readonly diagram: number; readonly line: number };
  /** White left below: players of upright videos have their words and buttons there. Share of the frame's height. */
  readonly foot: number;
}

/** Source: 1920 × 1080 of ITU-R BT.709, and the same upright; what stands in it is our own, tried over footage. Unit: px. */
export const VIDEO_FRAMES: Readonly<Record<FrameName, VideoFrame>> = {
  wide: { width: 1920, height: 1080, musicMm: 150, most: { diagram: 22, line: 13 }, foot: 0.05 },
  tall: { width: 1080, height: 1920, musicMm: 78, most: { diagram: 26, line: 14 }, foot: 0.16 },
};

/** White left at the sides, where screens may cut a picture off. Share of the frame's width. Common practice, no source. */
const SIDE = 0.05;

/** The most of a frame's height that a picture takes, so that hands are seen above it. */
const MOST_HEIGHT = 0.62;

/** Where a drawing stands in a frame: its left upper corner, and pixels for a millimetre. */
export interface PlacedDrawing {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

/** In the middle of the frame's width, and at its foot: where an eye looks for words. `border` is what goes around it. Unit: mm. */
export function placedInFrame(frame: VideoFrame, box: Box, most: number, border: number): PlacedDrawing {
  const width = box.width + 2 * border;
  const height = box.height + 2 * border;
  const room = { width: frame.width * (1 - 2 * SIDE), height: frame.height * MOST_HEIGHT };
  const scale = Math.min(most, room.width / width, room.height / height);
  return {
    x: (frame.width - scale * box.width) / 2 - scale * box.x,
    y: frame.height * (1 - frame.foot) - scale * (border + box.height) - scale * box.y,
    scale,
  };
}
