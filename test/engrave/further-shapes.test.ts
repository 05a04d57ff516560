import { describe, expect, test } from 'vitest';
import type { FingeredShape } from '../../shared/engrave/diagram-fingers.ts';
import { pictureWithFurther } from '../../shared/engrave/further-shapes.ts';
import type { Shape } from '../../shared/neck/shape.ts';
import { readXml } from './well-formed.ts';

const held = (...shapes: readonly Shape[]): readonly FingeredShape[] => shapes.map((shape) => ({ shape }));

const UKULELE = held([4, 4, 3, 2], [0, 4, 7, 7], [9, 7, 7, 7], [0, 7, 7, 10], [4, 7, 7, 10], [12, 11, 12, 10]);
const GUITAR = held(
  ['muted', 3, 2, 0, 1, 3],
  ['muted', 3, 5, 5, 5, 3],
  [8, 10, 10, 9, 8, 8],
  ['muted', 'muted', 10, 12, 13, 12],
  [3, 3, 2, 0, 1, 0],
  [8, 7, 5, 5, 5, 8],
);
const chord = (shape: Shape) => ({ shape, name: 'F#m7b5', leftHanded: false, roles: shape.map(() => '♭3') });

/** Where the frets of each further shape are printed, moved groups added up. Unit: hundredths of a mm. */
function figuresOf(svg: string): readonly { readonly frets: string; readonly x: number; readonly y: number }[] {
  const found: { frets: string; x: number; y: number }[] = [];
  const open: (readonly [number, number])[] = [];
  for (const [, close, attributes = '', frets] of svg.matchAll(
    /<(\/)?g(?: ([^>]*))?>|<text [^>]*>((?:\d+|x)(?:-(?:\d+|x))+)<\/text>/g,
  )) {
    if (frets !== undefined) {
      found.push({ frets, x: open.reduce((sum, [x]) => sum + x, 0), y: open.reduce((sum, [, y]) => sum + y, 0) });
    } else if (close !== undefined) open.pop();
    else {
      const moved = /translate\((-?\d+) (-?\d+)\)/.exec(attributes);
      open.push([Number(moved?.[1] ?? 0), Number(moved?.[2] ?? 0)]);
    }
  }
  return found;
}

describe('a chord with further shapes beside it', () => {
  test('is one well-formed picture on its own paper, with a sentence that names them all', () => {
    const picture = pictureWithFurther(chord([0, 4, 3, 2]), UKULELE);
    const { elements } = readXml(picture.svg);
    expect(elements.filter(({ name }) => name === 'svg')).toHaveLength(1);
    expect(picture.alternative).toMatch(/^F sharp minor 7 flat 5: string 4 open, .*\. Further shapes: 4-4-3-2, /);
    expect(picture.alternative).toMatch(/12-11-12-10\.$/);
  });

  test.each([
    ['four strings: one row', chord([0, 4, 3, 2]), UKULELE, 1],
    ['six strings: two rows of three, or the hover would scroll sideways', chord([2, 'muted', 2, 2, 1, 0]), GUITAR, 2],
    ['three shapes of six strings', chord([2, 'muted', 2, 2, 1, 0]), GUITAR.slice(0, 3), 1],
  ])('%s', (_name, request, further, rows) => {
    const figures = figuresOf(pictureWithFurther(request, further).svg);
    expect(figures.map(({ frets }) => frets)).toHaveLength(further.length);
    expect(new Set(figures.map(({ y }) => y)).size).toBe(rows);
    // In a row each stands clear to the right of the one before.
    for (const [index, figure] of figures.entries()) {
      const before = figures.slice(0, index).filter(({ y }) => y === figure.y);
      for (const other of before) expect(figure.x - other.x).toBeGreaterThan(800);
    }
  });

  test('the small ones show bars, but no finger numbers, which nobody could read', () => {
    const shape = [9, 7, 7, 7];
    const bar = { finger: 1, fret: 7, from: 1, to: 3, sounding: 3 } as const;
    const little = { finger: 3, fret: 9, from: 0, to: 0, sounding: 1 } as const;
    const fingering = { fingers: [3, 1, 1, 1] as const, presses: [bar, little] };
    const bars = (further: FingeredShape) =>
      pictureWithFurther(chord([0, 4, 3, 2]), [further]).svg.match(/<rect[^>]*height="240"/g)?.length ?? 0;
    expect(bars({ shape })).toBe(0);
    expect(bars({ shape, fingering })).toBe(1);
    const { svg } = pictureWithFurther(chord([0, 4, 3, 2]), [{ shape, fingering }]);
    // Figures on dots and bars have the colour of the paper.
    expect(svg).not.toMatch(/fill="#fffdf8">\d<\/text>/);
    expect(pictureWithFurther({ ...chord(shape), fingering }, [{ shape }]).svg).toMatch(/fill="#fffdf8">3<\/text>/);
  });
});
