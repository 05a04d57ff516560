import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { drawDiagram } from '../../shared/engrave/chord-diagram.ts';
import { diagramPicture } from '../../shared/engrave/diagram-picture.ts';
import type { Drawing } from '../../shared/engrave/drawing.ts';
import { escapeAttribute, escapeText } from '../../shared/engrave/escape.ts';
import { SIZES } from '../../shared/engrave/sizes.ts';
import { svgOf } from '../../shared/engrave/svg.ts';
import { systemsOf } from '../../shared/engrave/tab-system.ts';
import { textWidth } from '../../shared/engrave/text-width.ts';
import { KNOCK, METERS, ROLL, TUNE } from './lesson-samples.ts';
import { readXml } from './well-formed.ts';

const anyText = fc.string({
  unit: fc.oneof(
    fc.string({ minLength: 1, maxLength: 1 }),
    fc.constantFrom('<', '&', '"', "'", ']]>', '\u0000', '\u000b', '\ud800', '\uffff', '😀', '\n', '\t'),
  ),
});

describe('escaping', () => {
  test('any text comes back from text and attribute, but for what XML forbids', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const { elements, text: inside } = readXml(`<a b="${escapeAttribute(text)}">${escapeText(text)}</a>`);
        const allowed = text.replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '');
        expect(elements[0]?.attributes.b).toBe(allowed);
        expect(inside.trim()).toBe(allowed.trim());
      }),
      { seed: 21, numRuns: 300 },
    );
  });
});

describe('both inks', () => {
  test.each(['themed', 'fixed'] as const)('%s: any name and any words give well-formed XML', (ink) => {
    fc.assert(
      fc.property(
        anyText,
        fc.array(fc.oneof(fc.constant('muted' as const), fc.nat(19)), { minLength: 4, maxLength: 8 }),
        (text, shape) => {
          const drawing = drawDiagram({
            shape,
            name: text,
            caption: text,
            leftHanded: false,
            roles: shape.map(() => '♭3'),
          });
          readXml(svgOf(drawing, ink));
        },
      ),
      { seed: 22, numRuns: 200 },
    );
  });

  // The page's content policy refuses style attributes, and classes are the only way to the theme.
  test('themed: classes and presentation attributes, no style, no script, no colours of its own', () => {
    for (const drawing of drawings()) {
      const markup = svgOf(drawing, 'themed');
      expect(markup).not.toMatch(/style=|<script|href|#[0-9a-f]{3}|rgb\(/i);
      for (const { name, attributes } of readXml(markup).elements) {
        if (name === 'text')
          expect(attributes.class, attributes.y).toMatch(
            /^(num|name|count|word) (ink|ink-soft|ink-faint|paper|accent)$/,
          );
      }
    }
  });

  test('fixed: opaque paper first, explicit colours and faces, no classes, nothing to click', () => {
    for (const drawing of drawings()) {
      const markup = svgOf(drawing, 'fixed');
      expect(markup).not.toMatch(/class=|currentColor|data-place|tabindex/);
      const { elements } = readXml(markup);
      expect(elements[1]).toMatchObject({ name: 'rect', attributes: { fill: '#fffdf8' } });
      for (const { name, attributes } of elements) if (name === 'text') expect(attributes['font-family']).toBeTruthy();
    }
  });

  // A hover has no faces of ours: without a length the letters of another face would stand apart from the signs between them.
  test('fixed: every part of a name is fitted to the width that the name was set with', () => {
    const drawing = drawDiagram({ shape: [2, 4, 2, 3], name: 'F#m7b5/C', leftHanded: false });
    const lengths = readXml(svgOf(drawing, 'fixed')).elements.flatMap(({ attributes }) => attributes.textLength ?? []);
    const parts: readonly (readonly [string, number])[] = [
      ['F', SIZES.diagram.name],
      ['m', SIZES.diagram.name * 0.9],
      ['7', SIZES.diagram.name * 0.7],
      ['5', SIZES.diagram.name * 0.7],
      ['/C', SIZES.diagram.name],
    ];
    const expected = parts.map(([text, size]) => String(Math.round(textWidth(text, 'name', size) * 100)));
    expect(lengths).toEqual(expected);
    expect(svgOf(drawing, 'themed')).not.toContain('textLength');
  });

  test('a picture has its size in pixels, a sentence, and stays small', () => {
    const shapes = [
      [0, 4, 3, 2],
      [0, 0, 0, 3],
      [0, 2, 3, 2],
      [2, 2, 2, 0],
      [7, 6, 0, 0],
      [5, 7, 0, 0],
    ];
    const picture = diagramPicture(
      ...shapes.map((shape, index) => ({ shape, name: `C${index}`, caption: 'high', leftHanded: false })),
    );
    // Beyond about 100,000 characters of Markdown an editor shows raw text; base64 adds a third.
    expect(picture.svg.length).toBeLessThan(20_000);
    expect(picture.widthPx).toBeGreaterThan(200);
    expect(picture.heightPx).toBeGreaterThan(100);
    expect(picture.alternative.match(/string 4/g)).toHaveLength(6);
  });
});

// A reader who sees no colours still tells every sign: take the colours away, and no two inks may look alike by colour alone.
describe('colour is not the only carrier (E-2)', () => {
  test('the accent is only ever an outline around something that is bold as well', () => {
    const tune = systemsOf(TUNE, first(TUNE), { widthMm: 190 });
    const markup = tune.map(({ drawing }) => svgOf(drawing, 'themed')).join('');
    const { elements } = readXml(markup);
    const ringed = elements.filter(({ attributes }) => attributes.class?.includes('accent') === true);
    const bold = elements.filter(
      ({ name, attributes }) =>
        name === 'text' && attributes['font-weight'] === '700' && attributes.class === 'num ink',
    );
    expect(ringed.length).toBeGreaterThan(0);
    expect(ringed.every(({ name, attributes }) => name === 'rect' && attributes.class === 'accent outline')).toBe(true);
    // Rings, and a diamond.
    expect(bold.length).toBe(ringed.length + 1);
  });
});

function first(score: typeof ROLL): (typeof ROLL)['passes'][number] {
  const [pass] = score.passes;
  if (pass === undefined) throw new Error('no pass');
  return pass;
}

function drawings(): readonly Drawing[] {
  return [ROLL, KNOCK, TUNE, METERS].flatMap((score) =>
    systemsOf(score, first(score), { widthMm: 120 }).map(({ drawing }) => drawing),
  );
}
