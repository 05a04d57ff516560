import type { FaceFiles } from './faces.ts';

/** What writes files, from the bundle of its own. */
export type HandOutBundle = typeof import('./main.ts');

/** What writes files, with the faces that it writes in. */
export interface HandOutTools extends HandOutBundle {
  readonly faces: FaceFiles;
}
