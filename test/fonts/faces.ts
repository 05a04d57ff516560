/// <reference path="../../server/hand-out/fontkit.d.ts" />
import { createRequire } from 'node:module';
import { type Face, openSync } from 'fontkit';
import { faceFilesFor } from '../../server/hand-out/face-files.ts';
import type { PathStep } from '../../shared/engrave/drawing.ts';
import type { FaceName } from '../../shared/engrave/text-width.ts';
import type { FaceWidths } from '../../shared/engrave/type/letter-widths.ts';
import type { MusicSign } from '../../shared/engrave/type/music-signs.ts';
import { MUSIC_FACE, MUSIC_SIGNS } from './wanted.ts';

// What the faces themselves say; the engraver's tables are written from it and held against it.

const require = createRequire(import.meta.url);
const opened = (path: string): Face => openSync(require.resolve(path));

/** Outlines in staff spaces, y down the page: the face has four staff spaces in its em, and y up the page. */
export function musicSigns(): Readonly<Record<string, MusicSign>> {
  const face = opened(MUSIC_FACE);
  const space = face.unitsPerEm / 4;
  const figure = (value: number): number => Number((value / space).toFixed(3)) + 0;
  const signs = MUSIC_SIGNS.map(([name, code]): readonly [string, MusicSign] => {
    const glyph = face.glyphForCodePoint(code);
    const { minX, minY, maxX, maxY } = glyph.path.bbox;
    const box = { left: figure(minX), top: figure(-maxY), right: figure(maxX), bottom: figure(-minY) };
    const steps = glyph.path.commands.map(({ command, args }): PathStep => {
      const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = args.map((value, index) =>
        figure(index % 2 === 0 ? value : -value),
      );
      switch (command) {
        case 'moveTo':
          return ['M', a, b];
        case 'lineTo':
          return ['L', a, b];
        case 'bezierCurveTo':
          return ['C', a, b, c, d, e, f];
        case 'closePath':
          return ['Z'];
        default:
          throw new Error(`${name} has a step that is not known here: ${command}`);
      }
    });
    return [name, { code, advance: figure(glyph.advanceWidth), box, steps }];
  });
  return Object.fromEntries(signs);
}

/** Letters that are not seen, and the one that stands for none. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Cn}]/u;
/** Further apart than this, two letters begin a range each. */
const MOST_GAP = 4;

/** Advances of all letters that a face has, in thousandths of an em, −1 for those between them that it lacks. */
export function letterWidths(): Readonly<Record<FaceName, FaceWidths>> {
  const of = (name: FaceName): FaceWidths => {
    const widths = new Map<number, number>();
    for (const { family, name: file } of faceFilesFor(name)) {
      const face = opened(`@fontsource/${family}/files/${file}`);
      for (const code of face.characterSet) {
        if (widths.has(code) || UNSEEN.test(String.fromCodePoint(code))) continue;
        // Not `advanceWidth`: the reader fails at it where the last glyphs of a file are blank.
        const { advance } = face.hmtx.metrics.get(face.glyphForCodePoint(code).id);
        widths.set(code, Math.round((advance * 1000) / face.unitsPerEm));
      }
    }
    const ranges: { readonly first: number; readonly widths: number[] }[] = [];
    for (const [code, width] of [...widths].sort(([a], [b]) => a - b)) {
      const range = ranges.at(-1);
      const gap = range === undefined ? Infinity : code - range.first - range.widths.length;
      if (range === undefined || gap > MOST_GAP) ranges.push({ first: code, widths: [width] });
      else range.widths.push(...Array.from({ length: gap }, () => -1), width);
    }
    return ranges;
  };
  return {
    serif: of('serif'),
    serifItalic: of('serifItalic'),
    serifBold: of('serifBold'),
    serifBoldItalic: of('serifBoldItalic'),
    sans: of('sans'),
    sansBold: of('sansBold'),
  };
}

/** How far the outlines of all letters of a face reach over the line and below it. Unit: em. */
export function lettersOf(
  name: FaceName,
): readonly { readonly letter: string; readonly rise: number; readonly fall: number }[] {
  return faceFilesFor(name).flatMap(({ family, name: file }) => {
    const face = opened(`@fontsource/${family}/files/${file}`);
    return face.characterSet.flatMap((code) => {
      const letter = String.fromCodePoint(code);
      if (!/\p{L}/u.test(letter)) return [];
      const { minY, maxY } = face.glyphForCodePoint(code).path.bbox;
      return [{ letter, rise: maxY / face.unitsPerEm, fall: -minY / face.unitsPerEm }];
    });
  });
}
