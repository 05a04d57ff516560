/// <reference path="../../server/hand-out/fontkit.d.ts" />
import { createRequire } from 'node:module';
import { type Face, openSync } from 'fontkit';
import type { PathStep } from '../../shared/engrave/drawing.ts';
import type { FaceWidths } from '../../shared/engrave/type/letter-widths.ts';
import type { MusicSign } from '../../shared/engrave/type/music-signs.ts';
import { FACES, MUSIC_FACE, MUSIC_SIGNS, OTHER_LETTERS, RANGES } from './wanted.ts';

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

/** Advances in thousandths of an em, −1 where the face lacks the letter; heights in em. */
export function letterWidths(): Readonly<Record<string, FaceWidths>> {
  return Object.fromEntries(
    Object.entries(FACES).map(([name, files]) => {
      const faces = files.map(opened);
      const [face] = faces;
      if (face === undefined) throw new Error(`${name} has no file`);
      const widthOf = (code: number): number => {
        const found = faces.find((one) => one.hasGlyphForCodePoint(code));
        if (found === undefined) return -1;
        return Math.round((found.glyphForCodePoint(code).advanceWidth * 1000) / found.unitsPerEm);
      };
      const ranges = RANGES.map(([first, last]) => ({
        first,
        widths: Array.from({ length: last - first + 1 }, (_, index) => widthOf(first + index)),
      }));
      const others = [...OTHER_LETTERS].map((letter) => [letter, widthOf(letter.codePointAt(0) ?? 0)] as const);
      const known = Object.fromEntries(others.filter(([, width]) => width >= 0));
      return [name, { ranges, others: known }];
    }),
  );
}
