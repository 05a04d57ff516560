// What the product and its tests use of the reader of faces, which ships no types.
declare module 'fontkit' {
  export interface Box {
    readonly minX: number;
    readonly minY: number;
    readonly maxX: number;
    readonly maxY: number;
  }
  export interface Glyph {
    readonly id: number;
    readonly advanceWidth: number;
    readonly path: {
      readonly bbox: Box;
      readonly commands: readonly {
        readonly command: 'moveTo' | 'lineTo' | 'quadraticCurveTo' | 'bezierCurveTo' | 'closePath';
        readonly args: readonly number[];
      }[];
    };
  }
  export interface Face {
    readonly unitsPerEm: number;
    readonly capHeight: number;
    readonly xHeight: number;
    /** Code points of all that it has a glyph for. */
    readonly characterSet: readonly number[];
    readonly hmtx: { readonly metrics: { get(glyph: number): { readonly advance: number } } };
    hasGlyphForCodePoint(code: number): boolean;
    glyphForCodePoint(code: number): Glyph;
    /** Where the glyphs of a text stand, in units of the face; features of OpenType by their tags. */
    layout(
      text: string,
      features: Readonly<Record<string, boolean>>,
    ): { readonly positions: readonly { readonly xOffset: number; readonly yOffset: number }[] };
  }
  /** Reads a file of TrueType, OpenType or WOFF outlines; throws where it is none. */
  export function create(bytes: Uint8Array): Face;
  export function openSync(path: string): Face;
}
