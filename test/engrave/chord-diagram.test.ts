import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { describeDiagram, drawDiagram } from '../../shared/engrave/chord-diagram.ts';
import { spokenChordName } from '../../shared/engrave/chord-name.ts';
import { barresOf, fingersToShow } from '../../shared/engrave/diagram-fingers.ts';
import { windowOf } from '../../shared/engrave/diagram-window.ts';
import type { CircleItem, Item } from '../../shared/engrave/drawing.ts';
import { parseInstrument } from '../../shared/neck/instruments.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { readFrets } from '../../shared/neck/shape-reader.ts';
import { usualFingering } from '../../shared/voicing/playable.ts';
import { collisions } from './boxes.ts';

// Diagrams after common practice of chord charts: the nut or a fret number, rings and crosses above, dots, barres; no source.

const OPEN = { leftHanded: false } as const;

describe('what a diagram says to who cannot see it', () => {
  test.each([
    [
      { ...OPEN, shape: [0, 4, 3, 2], name: 'Em', fingers: [0, 3, 2, 1] },
      'E minor: string 4 open, string 3 fret 4 ring finger, string 2 fret 3 middle finger, string 1 fret 2 index finger.',
    ],
    [
      { ...OPEN, shape: ['muted', 0, 0, 3] as const, name: 'C' },
      'C: string 4 not played, string 3 open, string 2 open, string 1 fret 3.',
    ],
    [
      { ...OPEN, shape: [2, 2, 2, 0], name: 'D', fingers: [1, 1, 1, 0] },
      'D: string 4 fret 2 index finger, string 3 fret 2 index finger, string 2 fret 2 index finger, string 1 open, index finger across strings 4 to 2 at fret 2.',
    ],
    [
      { ...OPEN, shape: [2, 1, 0, 0], assumed: true },
      'Shape: string 4 fret 2, string 3 fret 1, string 2 open, string 1 open. This is the usual shape; the lesson gives none.',
    ],
  ])('%o', (request, sentence) => expect(describeDiagram(request)).toBe(sentence));

  test.each([
    ['Bb7', 'B flat 7'],
    ['F#m7b5', 'F sharp minor 7 flat 5'],
    ['Cmaj7', 'C major 7'],
    ['D(add9)', 'D added 9'],
    ['G/B', 'G over B'],
    ['Eb/Bb', 'E flat over B flat'],
    ['G6/9', 'G 6 9'],
    ['Edim7', 'E diminished 7'],
    ['Asus4', 'A suspended 4'],
  ])('%s is read %s', (name, spoken) => expect(spokenChordName(name)).toBe(spoken));
});

describe('the stretch of neck', () => {
  test.each([
    [[0, 0, 0, 3], 1, 4],
    [[0, 4, 3, 2], 1, 4],
    [[0, 0, 0, 0], 1, 4],
    [[2, 2, 2, 5], 1, 5],
    [[3, 3, 3, 5], 3, 4],
    [[7, 6, 0, 0], 6, 4],
    [[12, 12, 11, 0], 11, 4],
    [[2, 7, 0, 0], 2, 6],
  ])('%o begins at fret %i with %i rows', (shape, firstFret, rows) =>
    expect(windowOf(shape)).toEqual({ firstFret, rows }),
  );

  test('every stopped string has its row, whatever the shape', () => {
    const shapes = fc.array(fc.oneof(fc.constant('muted' as const), fc.nat(24)), { minLength: 4, maxLength: 8 });
    fc.assert(
      fc.property(shapes, (shape) => {
        const { firstFret, rows } = windowOf(shape);
        for (const fret of shape) {
          if (fret === 'muted' || fret === 0) continue;
          expect(fret).toBeGreaterThanOrEqual(firstFret);
          expect(fret).toBeLessThan(firstFret + rows);
        }
      }),
      { seed: 3 },
    );
  });
});

describe('barres', () => {
  // Case B-7 of the players' questions: no bar over an open string; B-2: none over a string stopped lower.
  test.each([
    ['one finger over three', [2, 2, 2, 0], [1, 1, 1, 0], 1],
    ['half bar', [3, 2, 1, 1], [3, 2, 1, 1], 1],
    ['a higher finger between', [2, 3, 2, 2], [1, 2, 1, 1], 1],
    ['two fingers, no bar', [2, 0, 2, 0], [1, 0, 2, 0], 0],
    ['an open string between', [2, 0, 2, 0], [1, 0, 1, 0], 0],
    ['a string below the bar', [4, 4, 2, 4], [1, 1, 2, 1], 0],
    ['two bars', [5, 5, 8, 8], [1, 1, 4, 4], 2],
    ['no fingers said', [2, 2, 2, 2], undefined, 0],
  ])('%s', (_name, shape, fingers, count) =>
    expect(barresOf({ shape, ...(fingers === undefined ? {} : { fingers }) })).toHaveLength(count),
  );
});

describe('bars of a fingering', () => {
  const lying = (frets: string, on: string) => {
    const read = readFrets(frets);
    const instrument = parseInstrument(on);
    if (!read.ok || !instrument.ok) throw new Error(`${frets} on ${on}`);
    const { shape } = read.value;
    const fingering = usualFingering(instrument.value, shape, 'medium');
    return { shape, ...fingersToShow(undefined, fingering) };
  };

  // Source of the fingerings: the charts of method books, common practice; a full, a half, a second barre, one over a muted string.
  test.each([
    ['full', '1-3-3-2-1-1', 'guitar', ['1 at 1: 0 to 5']],
    ['half', '3-2-1-1', 'tenor ukulele', ['1 at 1: 2 to 3']],
    ['over a string that is not played', '3-x-3-3-3-x', 'guitar', ['1 at 3: 0 to 4']],
    ['none where open strings lie between', '2-0-2-0', 'tenor ukulele', []],
  ])('%s', (_name, frets, on, bars) =>
    expect(
      barresOf(lying(frets, on)).map(({ finger, fret, from, to }) => `${finger} at ${fret}: ${from} to ${to}`),
    ).toEqual(bars),
  );

  test('no bar lies over an open string or over one that is stopped lower, whatever the shape', () => {
    const shapes = fc.array(fc.oneof(fc.constant('muted' as const), fc.nat(3)), { minLength: 4, maxLength: 4 });
    let bars = 0;
    fc.assert(
      fc.property(shapes, (shape) => {
        for (const { fret, from, to } of barresOf(lying(printShape(shape), 'tenor ukulele'))) {
          bars++;
          for (const under of shape.slice(from, to + 1))
            if (under !== 'muted') expect(under).toBeGreaterThanOrEqual(fret);
        }
      }),
      { seed: 6, numRuns: 400 },
    );
    expect(bars).toBeGreaterThanOrEqual(10);
  });

  test('every dot and every bar has one number, slanted where it is a suggestion and bold where the lesson gives it', () => {
    const found = lying('1-3-3-2-1-1', 'guitar');
    const texts = (items: readonly Item[]) =>
      items.flatMap((item) =>
        item.kind === 'text' ? [`${item.text} ${item.role}${item.bold === true ? ' bold' : ''}`] : [],
      );
    const suggested = texts(drawDiagram({ ...found, leftHanded: false }).items);
    expect([...suggested].sort()).toEqual(['1 count', '2 count', '3 count', '4 count']);
    const given = drawDiagram({ ...found, fingers: [1, 3, 4, 2, 1, 1], leftHanded: false });
    expect([...texts(given.items)].sort()).toEqual([
      '1 number bold',
      '2 number bold',
      '3 number bold',
      '4 number bold',
    ]);
    expect(given.alternative).not.toContain('suggestion');
  });

  test('what a hand cannot reach is no suggestion', () => {
    const read = parseInstrument('guitar');
    if (!read.ok) throw new Error('guitar');
    const wide = usualFingering(read.value, [1, 0, 0, 0, 0, 9], 'child');
    expect(wide?.verdict).toBe('out-of-reach');
    expect(fingersToShow(undefined, wide)).toEqual({});
    expect(fingersToShow([1, 0, 0, 0, 0, 4], wide)).toMatchObject({ fingers: [1, 0, 0, 0, 0, 4] });
  });
});

describe('left-handed view (E-1)', () => {
  test('C 0003: the dot is on the leftmost string and the open rings on the others', () => {
    const right = drawDiagram({ shape: [0, 0, 0, 3], name: 'C', leftHanded: false });
    const left = drawDiagram({ shape: [0, 0, 0, 3], name: 'C', leftHanded: true });
    const dot = (items: readonly Item[]): CircleItem =>
      circles(items).find(({ thickness }) => thickness === undefined) ?? failed();
    const rings = (items: readonly Item[]): readonly number[] =>
      circles(items)
        .filter(({ thickness }) => thickness !== undefined)
        .map(({ x }) => x);
    expect(dot(right.items).x).toBeGreaterThan(Math.max(...rings(right.items)));
    expect(dot(left.items).x).toBeLessThan(Math.min(...rings(left.items)));
  });

  test('is the mirror image, dot by dot', () => {
    const shapes = fc.array(fc.oneof(fc.constant('muted' as const), fc.nat(14)), { minLength: 4, maxLength: 8 });
    fc.assert(
      fc.property(shapes, (shape) => {
        const right = drawDiagram({ shape, leftHanded: false });
        const left = drawDiagram({ shape, leftHanded: true });
        const mirrored = circles(right.items).map(({ x, y }) => `${(right.width - x).toFixed(3)} ${y.toFixed(3)}`);
        expect(
          circles(left.items)
            .map(({ x, y }) => `${x.toFixed(3)} ${y.toFixed(3)}`)
            .sort(),
        ).toEqual(mirrored.sort());
        expect(left.alternative).toBe(right.alternative);
      }),
      { seed: 4 },
    );
  });
});

test('nothing written in a diagram lies over anything else written in it', () => {
  const fingers = fc.constantFrom(0, 1, 2, 3, 4, 'T' as const);
  const strings = fc.integer({ min: 4, max: 8 }).chain((count) =>
    fc.record({
      shape: fc.array(fc.oneof(fc.constant('muted' as const), fc.nat(19)), { minLength: count, maxLength: count }),
      fingers: fc.array(fingers, { minLength: count, maxLength: count }),
    }),
  );
  fc.assert(
    fc.property(
      strings,
      fc.constantFrom('Em', 'F#m7b5', 'Bbmaj7/F', 'D(add9)'),
      fc.boolean(),
      ({ shape, fingers }, name, assumed) => {
        expect(
          collisions(
            drawDiagram({
              shape,
              fingers,
              name,
              assumed,
              leftHanded: false,
              caption: 'high',
              roles: shape.map(() => '♯11'),
            }),
          ),
        ).toEqual([]);
      },
    ),
    { seed: 5 },
  );
});

test('tones may stand on the dots in place of fingers; a string without a finger has its tone under the grid', () => {
  const request = { ...OPEN, shape: [0, 2, 1, 2], name: 'G7', fingers: [0, 2, 1, 3], dotRoles: ['1', '5', 'b7', '3'] };
  const drawing = drawDiagram(request);
  const texts = drawing.items.flatMap((item) =>
    item.kind === 'group' ? item.items.flatMap((inner) => (inner.kind === 'text' ? [inner.text] : [])) : [],
  );
  expect(texts.filter((text) => /^[1-7]$/.test(text))).toEqual(['5', '7', '3', '1']);
  expect(drawing.items.some((item) => item.kind === 'text' && item.text === '2')).toBe(false);
  expect(drawing.alternative).toContain('string 4 open, the root');
  expect(drawing.alternative).toContain('string 2 fret 1 index finger, the flat 7');
  expect(collisions(drawing)).toEqual([]);
});

test('the drawing of Em, item by item', () => {
  const { width, height, items } = drawDiagram({
    shape: [0, 4, 3, 2],
    name: 'Em',
    fingers: [0, 3, 2, 1],
    leftHanded: false,
  });
  expect({ width, height, items: items.map(sketch) }).toMatchSnapshot();
});

function sketch(item: Item): string {
  const places = Object.entries(item).filter((entry): entry is [string, number] => typeof entry[1] === 'number');
  const numbers = places.map(([key, value]) => `${key} ${Math.round(value * 100) / 100}`).join(', ');
  const text =
    item.kind === 'text' ? ` ${item.text}` : item.kind === 'group' ? ` [${item.items.map(sketch).join('; ')}]` : '';
  return `${item.kind}${text}: ${numbers}`;
}

function circles(items: readonly Item[]): readonly CircleItem[] {
  return items.filter((item): item is CircleItem => item.kind === 'circle');
}

function failed(): never {
  throw new Error('not drawn');
}
