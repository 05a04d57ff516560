import { sha256 } from '@noble/hashes/sha2.js';
import { deflateSync, strToU8 } from 'fflate';
import type { FaceName } from '../../../shared/engrave/text-width.ts';
import type { PageFace } from '../../../shared/export/page/face-rules.ts';
import type { PageParts } from '../../../shared/export/page/page-of.ts';
import type { UsedLetters } from '../../../shared/export/page/used-letters.ts';
import { type FaceFiles, openFaces } from '../faces.ts';

/** The page's own script and style, as they are bundled. */
export interface PageFiles {
  readonly script: string;
  readonly style: string;
}

/** What an interactive page is made with, and with which parts of the faces. What draws it is not in here: every host has that. */
export function pageParts({ faces, page }: { readonly faces: FaceFiles; readonly page: PageFiles }): PageParts {
  return {
    script: page.script,
    style: page.style,
    deflate: (text) => deflateSync(strToU8(text), { level: 9 }),
    sha256: (text) => sha256(strToU8(text)),
    faces: (used) => facesFor(used, faces),
  };
}

/** The files that have a letter of those that are used. The one that is looked in first comes last: a browser tries that one first. */
function facesFor(used: UsedLetters, files: FaceFiles): readonly PageFace[] {
  const opened = openFaces(files);
  return [...used].flatMap(([face, letters]) =>
    [...new Set([...letters].flatMap((letter) => opened.fileWith(face, letter) ?? []))]
      .sort((a, b) => b - a)
      .flatMap((number) => pageFace(face, files, number)),
  );
}

function pageFace(face: FaceName, files: FaceFiles, number: number): readonly PageFace[] {
  const bytes = files[face][number];
  return bytes === undefined ? [] : [{ face, format: 'woff', bytes }];
}
