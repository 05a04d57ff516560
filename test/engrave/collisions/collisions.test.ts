import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { type DiagramRequest, drawDiagram } from '../../../shared/engrave/chord-diagram.ts';
import type { Drawing } from '../../../shared/engrave/drawing.ts';
import { ALLOWED, ALLOWED_IN_DIAGRAMS, allowanceOf, nameOf, TO_MEND, tellOverlap } from './allowed.ts';
import { drawingsOf } from './drawings-of-lesson.ts';
import { generatedLesson } from './generated-lessons.ts';
import { type Inked, inkedOf } from './inked.ts';
import { overlapsOf } from './overlaps.ts';

/** A wide window, a page, a narrow pane and a phone. Unit: mm. */
const WIDTHS = [300, 186, 90, 80] as const;

const SAMPLES = new URL('../../../client/samples/', import.meta.url);
const samples = readdirSync(SAMPLES)
  .filter((name) => name.endsWith('.lesson'))
  .map((name) => [name, readFileSync(new URL(name, SAMPLES), 'utf8')] as const);

/** What lies over something in a line of music and is not allowed by name. */
function collisionsIn(drawing: Drawing, used: Set<string>): readonly string[] {
  return overlapsOf(inkedOf(drawing)).flatMap((overlap) => {
    const allowed = allowanceOf(overlap, ALLOWED) ?? allowanceOf(overlap, TO_MEND);
    if (allowed === undefined) return [tellOverlap(overlap)];
    used.add(allowed.name);
    return [];
  });
}

function collisionsInDiagram(request: DiagramRequest): readonly string[] {
  const overlaps = overlapsOf(inkedOf(drawDiagram(request)));
  return overlaps.filter((overlap) => allowanceOf(overlap, ALLOWED_IN_DIAGRAMS) === undefined).map(tellOverlap);
}

/** Ink outside the drawing, which would be cut off. */
function outsideOf(drawing: Drawing): readonly string[] {
  return inkedOf(drawing).flatMap((one) => {
    const { x, y, width, height } = one.box;
    const isInside =
      x > -HAIR_MM && y > -HAIR_MM && x + width < drawing.width + HAIR_MM && y + height < drawing.height + HAIR_MM;
    const text = one.item.kind === 'text' ? one.item.text : '';
    return isInside || isKnownOutside(one) ? [] : [`${nameOf(one)} ${text} at ${x.toFixed(1)} ${y.toFixed(1)}`];
  });
}

/** Still to be mended: a tie from the line before begins left of a narrow first bar. */
function isKnownOutside(one: Inked): boolean {
  return nameOf(one) === 'tie';
}

/** Half a bar line, and what a figure of the first bar may hang over the edge. Unit: mm. */
const HAIR_MM = 0.2;

describe('nothing lies over anything else', () => {
  const used = new Set<string>();

  test.each(samples)('in %s', (_name, text) => {
    for (const widthMm of WIDTHS) {
      const { systems, diagrams } = drawingsOf(text, widthMm);
      expect(systems.length).toBeGreaterThan(5);
      for (const drawing of systems) {
        expect(collisionsIn(drawing, used)).toEqual([]);
        expect(outsideOf(drawing)).toEqual([]);
        expect(drawing.width * drawing.scale).toBeLessThanOrEqual(widthMm + 0.01);
      }
      for (const request of diagrams) {
        expect(collisionsInDiagram(request)).toEqual([]);
        expect(collisionsInDiagram({ ...request, leftHanded: true })).toEqual([]);
      }
    }
  });

  test('in a thousand lessons made by chance', () => {
    let systemCount = 0;
    let diagramCount = 0;
    for (let seed = 0; seed < 1000; seed++) {
      const text = generatedLesson(seed);
      const widthMm = WIDTHS[seed % WIDTHS.length] ?? 186;
      const { systems, diagrams, faults } = drawingsOf(text, widthMm);
      if (faults.length > 0) expect(faults, text).toEqual([]);
      for (const drawing of systems) {
        const found = [...collisionsIn(drawing, used), ...outsideOf(drawing)];
        if (found.length > 0) expect(found, `seed ${seed}, ${widthMm} mm:\n${text}`).toEqual([]);
      }
      for (const request of diagrams) {
        const found = collisionsInDiagram(request);
        if (found.length > 0) expect(found, `seed ${seed}:\n${text}`).toEqual([]);
      }
      systemCount += systems.length;
      diagramCount += diagrams.length;
    }
    expect(systemCount).toBeGreaterThan(2000);
    expect(diagramCount).toBeGreaterThan(2000);
  });

  test('every allowance is needed somewhere', () => {
    expect(ALLOWED.map(({ name }) => name).filter((name) => !used.has(name))).toEqual([]);
    expect(TO_MEND.map(({ name }) => name).filter((name) => !used.has(name))).toEqual([]);
  });
});

describe('the search finds what does collide', () => {
  const drawing = (items: Drawing['items']): Drawing => ({ width: 50, height: 50, items, alternative: '', scale: 1 });
  const text = (x: number, words: string) =>
    ({ kind: 'text', x, y: 10, text: words, size: 4, anchor: 'start', role: 'word', ink: 'strong' }) as const;
  const stroke = (x1: number, x2: number) =>
    ({ kind: 'line', x1, y1: 0, x2, y2: 20, thickness: 0.5, ink: 'strong' }) as const;
  const bow = {
    kind: 'path',
    steps: [
      ['M', 0, 12],
      ['C', 4, 2, 12, 2, 16, 12],
    ],
    ink: 'strong',
    thickness: 0.3,
  } as const;

  test.each([
    ['two words side by side', [text(1, 'lan'), text(20, 'tern')], 0],
    ['two words over each other', [text(1, 'lantern'), text(5, 'tern')], 1],
    ['a stroke through a word', [text(1, 'lantern'), stroke(3, 5)], 1],
    ['a slanting stroke that passes by its corner', [text(1, 'lan'), stroke(0, 30)], 0],
    ['a word under the arch of a bow', [bow, text(7, 'i')], 0],
    ['a word in the way of a bow', [bow, { ...text(7, 'i'), y: 6 }], 1],
    [
      'a group that is moved into another',
      [text(1, 'lan'), { kind: 'group', x: -18, y: 0, items: [text(20, 'tern')] }],
      1,
    ],
    [
      'a group that is drawn smaller',
      [text(6, 'lan'), { kind: 'group', x: 0, y: 6, scale: 0.4, items: [text(1, 'tern')] }],
      0,
    ],
    [
      'a ring around a word',
      [text(10, 'o'), { kind: 'circle', x: 11, y: 9, radius: 4, ink: 'strong', thickness: 0.3 }],
      0,
    ],
    ['a dot on a word', [text(10, 'o'), { kind: 'circle', x: 11, y: 9, radius: 4, ink: 'strong' }], 1],
  ] as const)('%s', (_name, items, expected) => {
    const found = overlapsOf(inkedOf(drawing(items))).filter((overlap) => allowanceOf(overlap, ALLOWED) === undefined);
    expect(found.length).toBe(expected);
  });
});
