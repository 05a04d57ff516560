import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { FACE_FILE_NAMES } from '../../../server/hand-out/face-files.ts';
import type { FaceFiles } from '../../../server/hand-out/faces.ts';
import type { FaceName } from '../../../shared/engrave/text-width.ts';

const require = createRequire(import.meta.url);

/** The faces that the product is packed with. */
export function readFaces(): FaceFiles {
  const read = (name: string): Uint8Array => {
    const family = name.replace(/-latin.*$/, '');
    return new Uint8Array(readFileSync(require.resolve(`@fontsource/${family}/files/${name}`)));
  };
  const entries = Object.entries(FACE_FILE_NAMES).map(([face, names]) => [face, names.map(read)]);
  return Object.fromEntries(entries) as Record<FaceName, readonly Uint8Array[]>;
}
