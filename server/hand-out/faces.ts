/// <reference path="./fontkit.d.ts" />
import { create, type Face } from 'fontkit';
import type { FaceName } from '../../shared/engrave/text-width.ts';
import type { FileWith } from '../../shared/export/letters.ts';

/** The files of each face as bytes, in the order in which a letter is looked for in them. WOFF, TrueType or OpenType. */
export type FaceFiles = Readonly<Record<FaceName, readonly Uint8Array[]>>;

export interface Faces {
  readonly fileWith: FileWith;
  /** A file of a face, where there is one of this number. */
  file(face: FaceName, number: number): Face | undefined;
}

/**
 * Opens the faces. What the reader of faces keeps of a letter depends on who asked for it first, so whatever is to come out the
 * same each time opens them for itself; nothing is read from them before it is needed.
 */
export function openFaces(files: FaceFiles): Faces {
  const opened = new Map<string, Face>();
  const file = (face: FaceName, number: number): Face | undefined => {
    const bytes = files[face][number];
    if (bytes === undefined) return undefined;
    const key = `${face} ${number}`;
    const known = opened.get(key) ?? create(bytes);
    opened.set(key, known);
    return known;
  };
  const found = new Map<string, number | undefined>();
  return {
    file,
    fileWith(face, codePoint, only) {
      if (only !== undefined) return file(face, only)?.hasGlyphForCodePoint(codePoint) === true ? only : undefined;
      const key = `${face} ${codePoint}`;
      if (!found.has(key)) {
        // The reader of faces fails at blanks that stand last in their file, and nothing is drawn of any.
        const blank = codePoint >= 0x2000 && codePoint <= 0x200b;
        const number = blank ? -1 : files[face].findIndex((_, at) => file(face, at)?.hasGlyphForCodePoint(codePoint));
        found.set(key, number < 0 ? undefined : number);
      }
      return found.get(key);
    },
  };
}
