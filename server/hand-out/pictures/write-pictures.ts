import type { LessonPicture } from '../../../shared/export/pictures/lesson-pictures.ts';
import { type PictureLook, pictureSvg } from '../../../shared/export/pictures/picture-svg.ts';
import { type FaceFiles, openFaces } from '../faces.ts';
import { outlinesFrom } from '../outlines.ts';

/** Writes a picture as an SVG file, and adds to `missing` the letters in it that no face has, which stand there as empty boxes. */
export type PictureWriter = (picture: LessonPicture, missing?: Set<string>) => string;

/** Writes pictures one after another as they are asked for. */
export function pictureWriter(files: FaceFiles, look: PictureLook): PictureWriter {
  const outlinesOf = outlinesFrom(openFaces(files));
  return (picture, missing = new Set()) => pictureSvg(picture, look, (text) => outlinesOf(text, missing));
}
