import type { LessonPicture } from '../../../shared/export/pictures/lesson-pictures.ts';
import { type PictureLook, pictureSvg } from '../../../shared/export/pictures/picture-svg.ts';
import { type FaceFiles, openFaces } from '../faces.ts';
import { outlinesFrom } from '../outlines.ts';

/** Writes pictures as SVG files, one after another as they are asked for. */
export function pictureWriter(files: FaceFiles, look: PictureLook): (picture: LessonPicture) => string {
  const outlinesOf = outlinesFrom(openFaces(files));
  return (picture) => pictureSvg(picture, look, outlinesOf);
}
