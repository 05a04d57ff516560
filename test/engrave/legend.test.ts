import { describe, expect, test } from 'vitest';
import type { Box, Item } from '../../shared/engrave/drawing.ts';
import { type LegendSign, legendOf } from '../../shared/engrave/legend.ts';
import { keptLegend } from '../../shared/engrave/page/legend-pieces.ts';
import { pageLayout } from '../../shared/engrave/page/page-sizes.ts';
import { SIZES } from '../../shared/engrave/sizes.ts';
import { ALLOWED, ALLOWED_IN_DIAGRAMS, allowanceOf, tellOverlap } from './collisions/allowed.ts';
import { inkedOf } from './collisions/inked.ts';
import { overlapsOf } from './collisions/overlaps.ts';
import { extentOf } from './extents.ts';

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

describe('the legend on a page', () => {
  const content = { kind: 'legend', title: 'Signs', signs: legendOf(new Set([...DRAWN, ...TOLD]), 4) } as const;
  const layout = pageLayout('a4', 'normal', { scale: 1, footLines: 2 });

  test.each(['full', 'beside', 'close'] as const)('%s: white between any two rows, more between two staffs', (look) => {
    for (const { items } of keptLegend(content, layout, look, 0)) {
      const rows = items.flatMap((item) => rowsIn(item, 0));
      rows.forEach(({ x, bottom, sample }, index) => {
        const next = rows[index + 1];
        if (next === undefined || next.x !== x) return;
        expect(next.top - bottom).toBeGreaterThan(0.6);
        if (sample !== undefined && next.sample !== undefined)
          expect(next.sample.y - sample.y - sample.height).toBeGreaterThan(1.8);
      });
    }
    const all = keptLegend(content, layout, look, 0).flatMap(({ items }) => items.flatMap((item) => rowsIn(item, 0)));
    expect(all.length).toBe(content.signs.length);
  });

  test('rows are drawn out where there is room, and not further than looks well', () => {
    const short = { ...content, signs: content.signs.slice(0, 16) };
    const heightOf = (room: number): number =>
      keptLegend(short, layout, 'full', room).reduce((sum, { height }) => sum + height, 0);
    const least = heightOf(0);
    expect(heightOf(10)).toBeGreaterThan(least + 4);
    expect(heightOf(10)).toBeLessThanOrEqual(least + 10);
    expect(heightOf(1000)).toBeLessThan(1.5 * least);
  });
});

interface LegendRow {
  readonly x: number;
  readonly top: number;
  readonly bottom: number;
  readonly sample: Box | undefined;
}

/** The rows of a legend, with what they and their samples cover. */
function rowsIn(item: Item, y: number): readonly LegendRow[] {
  if (item.kind !== 'group') return [];
  const top = y + item.y;
  if (item.begins !== 'list-item') return item.items.flatMap((inner) => rowsIn(inner, top));
  const covered = extentOf({ ...item, y: top });
  const sample = item.items.find((inner) => inner.kind === 'group' && inner.decorates === true);
  const box = sample === undefined ? undefined : extentOf(sample);
  if (covered === undefined) throw new Error('an empty row');
  return [
    {
      x: item.x,
      top: covered.y,
      bottom: covered.y + covered.height,
      sample: box === undefined ? undefined : { ...box, y: box.y + top },
    },
  ];
}

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
