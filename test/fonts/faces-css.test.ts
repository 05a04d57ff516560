import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type Face, openSync } from 'fontkit';
import { expect, test } from 'vitest';
import { faceFilesFor } from '../../server/hand-out/face-files.ts';
import { FIXED_FACES } from '../../shared/engrave/sizes.ts';
import { FACE_WIDTHS, type FaceWidths } from '../../shared/engrave/type/letter-widths.ts';

// The page must load for each letter the very file that its width was taken from. Source: CSS Fonts Module Level 4, sections 4.5
// (unicode-range) and 5.2 (of faces alike the one declared last is tried first).

interface Declared {
  readonly family: string;
  readonly style: string;
  readonly weight: string;
  readonly face: Face;
  readonly ranges: readonly (readonly [number, number])[];
}

const require = createRequire(import.meta.url);
const STYLE_SHEET = readFileSync(new URL('../../client/preview/faces.css', import.meta.url), 'utf8');

const DECLARED: readonly Declared[] = [...STYLE_SHEET.matchAll(/@font-face\s*\{([^}]*)\}/g)].map(([, body = '']) => {
  const value = (property: string): string => new RegExp(`${property}:\\s*([^;]*);`).exec(body)?.[1] ?? '';
  const [, url = ''] = /url\("([^"]+)"\)/.exec(value('src')) ?? [];
  return {
    family: value('font-family').replaceAll('"', ''),
    style: value('font-style'),
    weight: value('font-weight'),
    face: openSync(require.resolve(url)),
    ranges: value('unicode-range')
      .split(',')
      .map((range): readonly [number, number] => {
        const [first = '', last = first] = range.trim().replace('U+', '').split('-');
        return [Number.parseInt(first, 16), Number.parseInt(last, 16)];
      }),
  };
});

test.each([
  ['serif', 'Source Serif 4', 'normal', '400'],
  ['serifItalic', 'Source Serif 4', 'italic', '400'],
  ['serifBold', 'Source Serif 4', 'normal', '700'],
  ['serifBoldItalic', 'Source Serif 4', 'italic', '700'],
  ['sans', 'Source Sans 3', 'normal', '400'],
  ['sansBold', 'Source Sans 3', 'normal', '700'],
] as const)('every letter of the table %s is loaded from the file that it was measured in', (name, ...asked) => {
  const faces = DECLARED.filter(({ family, style, weight }) =>
    [family, style, weight].every((value, index) => value === asked[index]),
  ).toReversed();
  expect(faces).toHaveLength(faceFilesFor(name).length);
  const ranges: FaceWidths = FACE_WIDTHS[name];
  const widths = new Map<number, number>(
    ranges.flatMap(({ first, widths }) => widths.map((width, index) => [first + index, width] as const)),
  );
  for (const [code, width] of widths) {
    const shown = faces.find(
      ({ face, ranges }) =>
        ranges.some(([first, last]) => first <= code && code <= last) && face.hasGlyphForCodePoint(code),
    )?.face;
    // A letter that the table lacks is not asked for where a part has it all the same.
    if (width < 0 && /[\p{Cc}\p{Cf}\p{Cn}]/u.test(String.fromCodePoint(code))) continue;
    const advance = shown === undefined ? -1 : shown.hmtx.metrics.get(shown.glyphForCodePoint(code).id).advance;
    expect([String.fromCodePoint(code), advance]).toEqual([String.fromCodePoint(code), width]);
    if (shown !== undefined) expect(shown.unitsPerEm).toBe(1000);
  }
});

test('what brings its own faces asks first for those that were measured', () => {
  const families = new Set(DECLARED.map(({ family }) => family));
  for (const { family } of Object.values(FIXED_FACES)) {
    const [first = ''] = family.split(',');
    expect(families).toContain(first.replaceAll("'", ''));
  }
});
