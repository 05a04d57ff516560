import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type FaceFile, faceFilesFor } from '../../../server/hand-out/face-files.ts';
import type { FaceFiles } from '../../../server/hand-out/faces.ts';
import type { FaceName } from '../../../shared/engrave/text-width.ts';

const require = createRequire(import.meta.url);

export const FACES: readonly FaceName[] = ['serif', 'serifItalic', 'serifBold', 'serifBoldItalic', 'sans', 'sansBold'];

export function readFaceFile({ family, name }: FaceFile): Uint8Array {
  return new Uint8Array(readFileSync(require.resolve(`@fontsource/${family}/files/${name}`)));
}

/** The faces that the product is packed with. */
export function readFaces(): FaceFiles {
  const entries = FACES.map((face) => [face, faceFilesFor(face).map(readFaceFile)]);
  return Object.fromEntries(entries) as Record<FaceName, readonly Uint8Array[]>;
}
