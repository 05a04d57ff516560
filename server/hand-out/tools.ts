import type { FacesFor } from './face-files.ts';
import type { PageFiles } from './page/page-parts.ts';

/** What writes files, from the bundle of its own. */
export type HandOutBundle = typeof import('./main.ts');

/** What writes files, with all that goes into the files. */
export interface HandOutTools extends HandOutBundle {
  readonly facesFor: FacesFor;
  /** What an interactive page is written with. */
  readonly page: PageFiles;
}

/** The names of the bundles that an interactive page is written with. */
export const PAGE_FILE_NAMES = { script: 'hand-out-page.js', style: 'hand-out-page.css' } as const;
