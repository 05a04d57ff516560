import type { FaceName } from '../../shared/engrave/text-width.ts';
import type { FaceFiles } from './faces.ts';

const serif = (style: string): readonly string[] => partsOf('source-serif-4', style);
const sans = (style: string): readonly string[] => partsOf('source-sans-3', style);

function partsOf(family: string, style: string): readonly string[] {
  return ['latin', 'latin-ext'].map((part) => `${family}-${part}-${style}.woff`);
}

/** The names of the files of each face, as they are packed with the product. */
export const FACE_FILE_NAMES: Readonly<Record<FaceName, readonly string[]>> = {
  serif: serif('400-normal'),
  serifItalic: serif('400-italic'),
  serifBold: serif('700-normal'),
  serifBoldItalic: serif('700-italic'),
  sans: sans('400-normal'),
  sansBold: sans('700-normal'),
};

/** All faces, each file read by its name. */
export async function readFaceFiles(read: (name: string) => Promise<Uint8Array>): Promise<FaceFiles> {
  const readAll = (face: FaceName): Promise<readonly Uint8Array[]> => Promise.all(FACE_FILE_NAMES[face].map(read));
  return {
    serif: await readAll('serif'),
    serifItalic: await readAll('serifItalic'),
    serifBold: await readAll('serifBold'),
    serifBoldItalic: await readAll('serifBoldItalic'),
    sans: await readAll('sans'),
    sansBold: await readAll('sansBold'),
  };
}
