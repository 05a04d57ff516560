import type { FaceName } from '../../shared/engrave/text-width.ts';
import type { FaceFiles } from './faces.ts';

type FacePart = 'latin' | 'latin-ext' | 'cyrillic' | 'cyrillic-ext' | 'greek' | 'vietnamese';

/** In the order in which a letter is looked for in them. */
const LATIN: readonly FacePart[] = ['latin', 'latin-ext'];
const ALL: readonly FacePart[] = [...LATIN, 'cyrillic', 'cyrillic-ext', 'greek', 'vietnamese'];

/** Letters that only one part beyond the Latin ones has. Source: unicode.json of the packages of the faces. */
const BEYOND_LATIN: readonly (readonly [FacePart, RegExp])[] = [
  ['cyrillic', /[\u0400-\u045f\u0490\u0491\u04b0\u04b1\u2116]/],
  ['cyrillic-ext', /[\u0460-\u048f\u0492-\u04af\u04b2-\u052f\u20b4]/],
  ['greek', /[\u0370-\u03ff]/],
  ['vietnamese', /[\u1ea0-\u1ef9]/],
];

interface FaceInParts {
  readonly family: string;
  readonly style: string;
  readonly parts: readonly FacePart[];
}

/** The faces in their files. Nothing that a teacher writes is set in the bold of the sans, only figures and signs of ours. */
const FACES: Readonly<Record<FaceName, FaceInParts>> = {
  serif: { family: 'source-serif-4', style: '400-normal', parts: ALL },
  serifItalic: { family: 'source-serif-4', style: '400-italic', parts: ALL },
  serifBold: { family: 'source-serif-4', style: '700-normal', parts: ALL },
  serifBoldItalic: { family: 'source-serif-4', style: '700-italic', parts: ALL },
  sans: { family: 'source-sans-3', style: '400-normal', parts: ALL },
  sansBold: { family: 'source-sans-3', style: '700-normal', parts: LATIN },
};

/** A file of a face: its name, as it is packed with the product, and the family that its package is called after. */
export interface FaceFile {
  readonly name: string;
  readonly family: string;
}

/** The files of a face that letters of this text may be in; all of them where no text is given. */
export function faceFilesFor(face: FaceName, text?: string): readonly FaceFile[] {
  const { family, style, parts } = FACES[face];
  const composed = text?.normalize('NFC');
  const asked = parts.filter((part) => {
    const letters = BEYOND_LATIN.find(([beyond]) => beyond === part)?.[1];
    return composed === undefined || letters === undefined || letters.test(composed);
  });
  return asked.map((part) => ({ name: `${family}-${part}-${style}.woff`, family }));
}

/** Gives the faces with all that a lesson's text asks for. */
export type FacesFor = (text: string) => Promise<FaceFiles>;

/** Each file is read by its name when a text first asks for it, and kept. */
export function facesRead(read: (name: string) => Promise<Uint8Array>): FacesFor {
  const kept = new Map<string, Promise<Uint8Array>>();
  const fileOf = ({ name }: FaceFile): Promise<Uint8Array> => {
    const known = kept.get(name);
    if (known !== undefined) return known;
    const reading = read(name);
    kept.set(name, reading);
    // What failed may come through the next time.
    reading.catch(() => kept.delete(name));
    return reading;
  };
  return async (text) => {
    const filesOf = (face: FaceName): Promise<readonly Uint8Array[]> =>
      Promise.all(faceFilesFor(face, text).map(fileOf));
    const [serif, serifItalic, serifBold, serifBoldItalic, sans, sansBold] = await Promise.all([
      filesOf('serif'),
      filesOf('serifItalic'),
      filesOf('serifBold'),
      filesOf('serifBoldItalic'),
      filesOf('sans'),
      filesOf('sansBold'),
    ]);
    return { serif, serifItalic, serifBold, serifBoldItalic, sans, sansBold };
  };
}
