import type { FaceName } from '../../engrave/text-width.ts';
import { base64 } from './base64.ts';

/** A file of a face that goes into the page. */
export interface PageFace {
  readonly face: FaceName;
  readonly format: 'truetype' | 'woff' | 'woff2';
  readonly bytes: Uint8Array;
  /** Letters that it is for, as CSS writes a `unicode-range`; absent where it is the only file of its face. */
  readonly range?: string;
}

const FACES: Readonly<Record<FaceName, { readonly family: string; readonly style: string; readonly weight: number }>> =
  {
    serif: { family: 'Source Serif 4', style: 'normal', weight: 400 },
    serifItalic: { family: 'Source Serif 4', style: 'italic', weight: 400 },
    serifBold: { family: 'Source Serif 4', style: 'normal', weight: 700 },
    serifBoldItalic: { family: 'Source Serif 4', style: 'italic', weight: 700 },
    sans: { family: 'Source Sans 3', style: 'normal', weight: 400 },
    sansBold: { family: 'Source Sans 3', style: 'normal', weight: 700 },
  };

/** The faces as rules of a style that fetch nothing. */
export function faceRules(faces: readonly PageFace[]): string {
  return faces
    .map(({ face, format, bytes, range }) => {
      const { family, style, weight } = FACES[face];
      const mime = format === 'truetype' ? 'ttf' : format;
      const letters = range === undefined ? '' : `unicode-range:${range};`;
      return `@font-face{font-family:"${family}";font-style:${style};font-weight:${weight};font-display:block;${letters}src:url("data:font/${mime};base64,${base64(bytes)}") format("${format}")}`;
    })
    .join('\n');
}
