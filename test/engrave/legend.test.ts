import { describe, expect, test } from 'vitest';
import type { Item } from '../../shared/engrave/drawing.ts';
import { type LegendSign, legendOf } from '../../shared/engrave/legend.ts';
import { SIZES } from '../../shared/engrave/sizes.ts';
import { ALLOWED, ALLOWED_IN_DIAGRAMS, allowanceOf, tellOverlap } from './collisions/allowed.ts';
import { inkedOf } from './collisions/inked.ts';
import { overlapsOf } from './collisions/overlaps.ts';

const DRAWN: readonly LegendSign[] = [
  ...(['open-string', 'muted-string', 'barre', 'given-finger', 'suggested-finger', 'position'] as const),
  ...(['down-stroke', 'up-stroke', 'partial-stroke', 'slow-stroke', 'light-stroke', 'damped-stroke'] as const),
  ...(['chunk', 'roll', 'shape-slide', 'thumb-slap', 'palm', 'nails', 'body', 'stop-all', 'stop-string'] as const),
  ...(['hammer-on', 'pull-off', 'slide', 'bend', 'vibrato', 'trill', 'harmonic', 'tune', 'accent'] as const),
  ...(['held', 'half-note-stem', 'whole-note', 'tuplet', 'same-bar', 'rest-stroke', 'left-hand-fingers'] as const),
  ...(['assumed-name', 'no-chord', 'picking-fingers', 'pattern-start'] as const),
];
const TOLD: readonly LegendSign[] = ['usual-shape'];

function lineOf(sign: LegendSign, stringCount = 4) {
  const [line] = legendOf(new Set([sign]), stringCount);
  if (line === undefined) throw new Error(`no line for ${sign}`);
  return line;
}

describe('the legend', () => {
  test.each([4, 6, 8])('shows every sign as large as on the sheet, whole and clear, with %i strings', (strings) => {
    for (const sign of DRAWN) {
      const { sample } = lineOf(sign, strings);
      if (sample === undefined) throw new Error(`no sample of ${sign}`);
      expect(sample.scale, sign).toBe(1);
      // The words beside it say it; a second name would be read twice.
      expect(sample.alternative, sign).toBe('');
      const inked = inkedOf(sample);
      for (const { box } of inked) {
        expect(box.x, sign).toBeGreaterThan(-0.2);
        expect(box.y, sign).toBeGreaterThan(-0.2);
        expect(box.x + box.width, sign).toBeLessThan(sample.width + 0.2);
        expect(box.y + box.height, sign).toBeLessThan(sample.height + 0.2);
      }
      const found = overlapsOf(inked).filter(
        (overlap) =>
          allowanceOf(overlap, ALLOWED) === undefined && allowanceOf(overlap, ALLOWED_IN_DIAGRAMS) === undefined,
      );
      expect(found.map(tellOverlap), sign).toEqual([]);
    }
  });

  test('has words for every sign, each once, and none for signs that do not occur', () => {
    const all = legendOf(new Set([...DRAWN, ...TOLD]), 4);
    expect(all.length).toBe(DRAWN.length + TOLD.length);
    expect(new Set(all.map(({ text }) => text)).size).toBe(all.length);
    for (const sign of TOLD) expect(lineOf(sign).sample, sign).toBeUndefined();
    expect(legendOf(new Set(), 4)).toEqual([]);
  });

  // Case C-9: in a diagram x is a string not played, in the tab it is struck but damped; the legend tells both.
  test('tells the cross of a diagram from that of the tab, wherever one of them is met', () => {
    for (const sign of ['muted-string', 'damped-stroke'] as const) {
      expect(lineOf(sign).text, sign).toMatch(/diagram.*not played/);
      expect(lineOf(sign).text, sign).toMatch(/struck, but damped/);
    }
  });

  test('says which way arrows point, and draws them so', () => {
    expect(lineOf('down-stroke').text).toMatch(/up the page.*way the hand goes over the strings as they are drawn/);
    expect(tipOf('down-stroke')).toBeLessThan(SIZES.staffMargin);
    expect(tipOf('up-stroke')).toBeGreaterThan(SIZES.staffMargin + 3 * SIZES.stringGap);
  });

  test('a suggested finger is shown on its dot, in figures as large as in the diagrams', () => {
    const figures = flat(lineOf('suggested-finger').sample?.items ?? []).filter((item) => item.kind === 'text');
    expect(figures.map(({ size, role }) => [size, role])).toEqual([[SIZES.diagram.finger, 'count']]);
  });
});

/** How far down its sample the tip of an arrow's head is. */
function tipOf(sign: LegendSign): number {
  const head = inkedOf(lineOf(sign).sample ?? { items: [] }).find(
    ({ item }) => item.kind === 'path' && item.thickness === undefined && item.ink === 'strong',
  );
  if (head === undefined || head.item.kind !== 'path') throw new Error('no arrow');
  const [step] = head.item.steps;
  return step?.[0] === 'M' ? SIZES.staffMargin + step[2] : Number.NaN;
}

function flat(items: readonly Item[]): readonly Exclude<Item, { kind: 'group' }>[] {
  return items.flatMap((item) => (item.kind === 'group' ? flat(item.items) : [item]));
}
