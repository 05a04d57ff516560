import { expect, test } from 'vitest';
import { drawDiagram } from '../../shared/engrave/chord-diagram.ts';
import type { Drawing, Item } from '../../shared/engrave/drawing.ts';
import { legendOf } from '../../shared/engrave/legend.ts';
import { keptLegend } from '../../shared/engrave/page/legend-pieces.ts';
import { MM_PER_POINT, PAGE_SIZES, pageLayout } from '../../shared/engrave/page/page-sizes.ts';
import { paragraph, rigid } from '../../shared/engrave/page/paragraph.ts';
import { piecesOf } from '../../shared/engrave/page/pieces.ts';
import { PLAIN, STRONG } from '../../shared/engrave/page/type-style.ts';
import { SIZES } from '../../shared/engrave/sizes.ts';
import { meterPiece } from '../../shared/engrave/tab-bar-line.ts';
import { namePiece } from '../../shared/engrave/tab-name.ts';
import { type Piece, staffOf } from '../../shared/engrave/tab-piece.ts';
import { planRows } from '../../shared/engrave/tab-rows.ts';
import { CAUTION_ON_STRETCH } from '../../shared/hand/reach.ts';
import { inkedOf } from './collisions/inked.ts';
import { textsUnder } from './extents.ts';

/** Between the foot of a small diagram and the top of the name under it. Unit: mm. */
function whiteOver(name: string): number {
  const diagram: Piece = { row: 'diagram', left: 0, right: 8, items: [], height: 12 };
  const set = namePiece({ name, assumed: false });
  const rows = planRows([diagram, set], [], staffOf(4));
  const top = Math.min(...inkedOf({ items: set.items }).map(({ box }) => box.y));
  return rows.y('name') + top - rows.y('diagram');
}

// From our own list of what players ask for: a name never touches its diagram. How much white is common practice, no source.
test.each(['C', 'F♯m', 'C7', 'D(add9)', 'Em(add11)', 'Cmaj7', 'B♭m7♭5', 'D6/9', 'G°'])(
  'the name %s stands clear of the diagram over it',
  (name) => expect(whiteOver(name)).toBeGreaterThan(0.7),
);

test('a drawing in a line moves its neighbours and no others, and is touched by none', () => {
  const layout = pageLayout('a4', 'normal', { scale: 1, footLines: 2 });
  const drawing: Drawing = { width: 10, height: 17, items: [], alternative: '', scale: 0.5 };
  const words = (count: number): string => 'evenly '.repeat(count);
  const leading = PAGE_SIZES.leading * layout.type.body;
  for (const before of [3, 12, 20, 33]) {
    const lines = paragraph(
      [
        { kind: 'text', text: words(before), style: PLAIN },
        { kind: 'drawing', drawing },
        { kind: 'text', text: 'Am ', style: STRONG },
        { kind: 'text', text: words(40), style: PLAIN },
      ],
      'body',
      rigid(0),
      layout,
    );
    const drawn = lines.findIndex(({ height }) => height > drawing.height * drawing.scale);
    expect(lines.filter(({ height }) => height > drawing.height * drawing.scale).length).toBe(1);
    let top = 0;
    const baselines = lines.map(({ items, above, height }, index) => {
      if (index > 0) {
        expect(above.natural).toBeGreaterThan(-1e-6);
        top += above.natural;
      }
      const at = top + topOf(items[0]);
      top += height;
      return at;
    });
    expect(baselines.length).toBeGreaterThan(4);
    baselines.slice(1).forEach((at, index) => {
      const step = at - (baselines[index] ?? 0);
      if (index === drawn || index + 1 === drawn) expect(step).toBeGreaterThan(leading);
      else expect(step).toBeCloseTo(leading, 6);
    });
  }
});

function topOf(item: Item | undefined): number {
  return item?.kind === 'group' ? item.y : Number.NaN;
}

test('a diagram within a line is low, and its number can still be read on paper', () => {
  const shape = [11, 10, 0, 0] as const;
  const [row, inLine] = [false, true].map((inLine) => drawDiagram({ shape, leftHanded: false, inLine }));
  expect(inLine?.height).toBeLessThan((row?.height ?? 0) - 4);
  const scale = SIZES.inlineDiagramScale * PAGE_SIZES.inlineDiagram;
  const sizes = (inLine?.items ?? []).flatMap((item) => textsUnder(item)).map(({ size }) => size * scale);
  expect(sizes.length).toBe(1);
  // Of 6.5 pt at least, which is what books set their smallest figures in; common practice, no source.
  expect(Math.min(...sizes)).toBeGreaterThan(6.5 * MM_PER_POINT);
});

test('rows of the legend stand apart in large print as well', () => {
  const signs = legendOf(new Set(['open-string', 'position', 'down-stroke', 'pattern-start'] as const), 4);
  const layout = pageLayout('a4', 'large', { scale: 1, footLines: 2 });
  const [, , ...further] = keptLegend({ kind: 'legend', title: 'Signs', signs }, layout, 'beside', 0);
  expect(further.length).toBe(3);
  const between = PAGE_SIZES.tightLeading * layout.type.legend - layout.type.legend;
  for (const { above } of further) expect(above.natural - above.shrink).toBeGreaterThan(between);
});

// From looking at prints: the heavy strokes of 4/4 ran together, and strings left open around it looked torn.
test.each([4, 5, 6, 8])(
  'on %i strings the figures of a meter stand apart, and the strings run on behind them',
  (strings) => {
    const meter = meterPiece(staffOf(strings), { counts: 4, unit: 4 });
    const [upper, lower] = inkedOf({ items: meter.items }).map(({ box }) => box);
    if (upper === undefined || lower === undefined) throw new Error('no figures');
    expect(lower.y - (upper.y + upper.height)).toBeGreaterThan(0.5);
    expect(upper.y).toBeGreaterThan(-0.2);
    expect(meter.openings ?? []).toEqual([]);
  },
);

test('a caution of two lines in its frame has lines about as long', () => {
  const layout = pageLayout('a4', 'large', { scale: 1, footLines: 2 });
  const [framed] = piecesOf({ kind: 'caution', text: { text: CAUTION_ON_STRETCH, place: 0 } }, layout);
  const lines = inkedOf({ items: framed?.items ?? [] }).filter(({ item }) => item.kind === 'text');
  const widths = lines.map(({ box }) => box.width);
  expect(widths.length).toBe(2);
  expect(Math.min(...widths)).toBeGreaterThan(0.8 * Math.max(...widths));
});

// Common practice of engraving, no source: what is left of a page goes between its lines of music, not under their headings.
test('white between lines of music grows further than white under a heading', () => {
  const layout = pageLayout('a4', 'normal', { scale: 1, footLines: 2 });
  const drawing: Drawing = { width: 170, height: 40, items: [], alternative: 'Bar 1', scale: 1 };
  const heading = { kind: 'heading', level: 2, text: { text: 'A part', place: 0 } } as const;
  const [music] = piecesOf({ kind: 'system', drawing }, layout);
  const [part] = piecesOf(heading, layout);
  if (music === undefined || part === undefined) throw new Error('nothing to set');
  expect(music.above.stretch / music.above.natural).toBeGreaterThan(2 * (part.above.stretch / part.above.natural));
});
