import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { inflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { startRasteriser } from '../../../server/hand-out/pictures/rasteriser.ts';
import { pictureWriter } from '../../../server/hand-out/pictures/write-pictures.ts';
import type { PathStep } from '../../../shared/engrave/drawing.ts';
import { type LessonPicture, picturesOf } from '../../../shared/export/pictures/lesson-pictures.ts';
import { pictureNames } from '../../../shared/export/pictures/picture-names.ts';
import { shapeOf } from '../../../shared/export/pictures/shapes.ts';
import { openDocument } from '../../../shared/lesson/document.ts';
import { lessonOf } from '../../../shared/lesson/model/lesson.ts';
import { readXml } from '../../engrave/well-formed.ts';
import { readFaces } from '../pdf/read-faces.ts';

const SAMPLES = readdirSync(new URL('../../../client/samples/', import.meta.url))
  .filter((name) => name.endsWith('.lesson'))
  .map((name): readonly [string, string] => [
    name,
    readFileSync(new URL(`../../../client/samples/${name}`, import.meta.url), 'utf8'),
  ]);

/** Source: ITU-R BT.709 for 1920 × 1080. */
const FRAME = { wide: [1920, 1080], tall: [1080, 1920] } as const;

const FACES = readFaces();
const write = pictureWriter(FACES, { ink: 'dark', halo: true });
const require = createRequire(import.meta.url);

function picturesFrom(text: string, frame: 'wide' | 'tall'): readonly LessonPicture[] {
  const document = openDocument(text);
  return picturesOf(document, lessonOf(document).editions[0], { frame });
}

interface Pixels {
  readonly width: number;
  readonly height: number;
  /** Red, green, blue and how opaque, of a place counted from the left upper corner. */
  at(x: number, y: number): readonly number[];
}

/** A PNG file of 8 bits with transparency, read by itself. Source: PNG (third edition), sections 5, 9 and 11. */
function readPng(bytes: Uint8Array): Pixels {
  const file = Buffer.from(bytes);
  expect(file.subarray(0, 8).toString('hex')).toBe('89504e470d0a1a0a');
  let header = Buffer.alloc(0);
  const packed: Buffer[] = [];
  for (let at = 8; at < file.length; ) {
    const length = file.readUInt32BE(at);
    const kind = file.toString('latin1', at + 4, at + 8);
    const data = file.subarray(at + 8, at + 8 + length);
    if (kind === 'IHDR') header = data;
    if (kind === 'IDAT') packed.push(data);
    at += length + 12;
  }
  const [width, height] = [header.readUInt32BE(0), header.readUInt32BE(4)];
  expect([header[8], header[9], header[12]]).toEqual([8, 6, 0]);
  const raw = inflateSync(Buffer.concat(packed));
  const row = width * 4;
  const pixels = Buffer.alloc(row * height);
  for (let y = 0; y < height; y++) {
    const filter = raw[y * (row + 1)] ?? 0;
    for (let x = 0; x < row; x++) {
      const left = x < 4 ? 0 : (pixels[y * row + x - 4] ?? 0);
      const up = y === 0 ? 0 : (pixels[(y - 1) * row + x] ?? 0);
      const corner = x < 4 || y === 0 ? 0 : (pixels[(y - 1) * row + x - 4] ?? 0);
      const guess = [0, left, up, (left + up) >> 1, paeth(left, up, corner)][filter] ?? 0;
      pixels[y * row + x] = (raw[y * (row + 1) + 1 + x] ?? 0) + guess;
    }
  }
  return { width, height, at: (x, y) => [...pixels.subarray(y * row + 4 * x, y * row + 4 * x + 4)] };
}

function paeth(left: number, up: number, corner: number): number {
  const sum = left + up - corner;
  const [a, b, c] = [Math.abs(sum - left), Math.abs(sum - up), Math.abs(sum - corner)];
  if (a <= b && a <= c) return left;
  return b <= c ? up : corner;
}

describe.each(SAMPLES)('%s', (_name, text) => {
  test.each(['wide', 'tall'] as const)('%s: names sort in the order of the lesson and suit every system', (frame) => {
    const names = picturesFrom(text, frame).map(({ name }) => name);
    expect(names.length).toBeGreaterThan(4);
    expect([...names].sort()).toEqual(names);
    // Some systems take capitals and small letters for the same.
    expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(names.length);
    for (const name of names) {
      expect(name).toMatch(/^\d{2,}-\d{2,}( [\p{L}\p{N} _-]+)?$/u);
      expect(name).not.toMatch(/ $/);
    }
  });

  test('every chord line and every exercise has its pictures, in order', () => {
    const pictures = picturesFrom(text, 'wide');
    // What the file says, read without the product.
    const titles = [...text.matchAll(/^exercise\s+(.+?)\s*$/gm)].map(([, title = '']) =>
      title
        .replace(/[^\p{L}\p{N} _-]+/gu, ' ')
        .replace(/ +/g, ' ')
        .trim(),
    );
    const first = titles.map((title) =>
      pictures.findIndex(({ kind, name }) => kind === 'line' && name.includes(` ${title}`)),
    );
    expect([titles, first.every((index) => index >= 0)]).toEqual([titles, true]);
    expect([...first].sort((a, b) => a - b)).toEqual(first);
    const shapes = [...text.matchAll(/^chord\s+\S+\s+[0-9x]/gm)];
    expect(pictures.filter(({ kind }) => kind === 'diagram').length).toBeGreaterThanOrEqual(shapes.length);
    expect(pictures.every(({ alternative }) => alternative.length > 10)).toBe(true);
  });

  test.each(['wide', 'tall'] as const)('%s: each is a file that stands alone and keeps to its frame', (frame) => {
    const [width, height] = FRAME[frame];
    for (const picture of picturesFrom(text, frame)) {
      const svg = write(picture);
      // The title is text and may hold what looks like a point.
      const drawn = svg.replace(/<title>.*<\/title>/, '');
      const [root] = readXml(svg).elements;
      expect(root).toMatchObject({ name: 'svg', attributes: { width: String(width), height: String(height) } });
      // No letters to be set in a face, nothing fetched, no style that a program may lack.
      expect(drawn).not.toMatch(/<text|<image|<style|href="[^#]|url\(|font-|NaN|Infinity/);
      // What is drawn again leads to a shape of the same file, in the words of SVG 1.1.
      const named = new Set([...drawn.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id));
      for (const [, id] of drawn.matchAll(/href="#([^"]+)"/g)) expect(named).toContain(id);
      const { points, left, right, top, bottom } = reachOf(drawn);
      expect(points).toBeGreaterThan(10);
      expect(left).toBeGreaterThanOrEqual(width * 0.05 - 0.02);
      expect(right).toBeLessThanOrEqual(width * 0.95 + 0.02);
      expect(top).toBeGreaterThanOrEqual(0);
      expect(bottom).toBeLessThanOrEqual(height * 0.95 + 0.02);
    }
  });
});

/** How far the points of all outlines reach. */
function reachOf(svg: string): Record<'points' | 'left' | 'right' | 'top' | 'bottom', number> {
  const reach = { points: 0, left: Infinity, right: -Infinity, top: Infinity, bottom: -Infinity };
  for (const [x, y] of outlinesIn(svg).flat()) {
    reach.points += 1;
    reach.left = Math.min(reach.left, x);
    reach.right = Math.max(reach.right, x);
    reach.top = Math.min(reach.top, y);
    reach.bottom = Math.max(reach.bottom, y);
  }
  return reach;
}

type Point = readonly [x: number, y: number];

/** The points that the outlines of a picture lead to, in the order in which it paints them. Source: SVG 1.1, 5.6 and 8.3. */
function outlinesIn(svg: string): readonly (readonly Point[])[] {
  const shapes = new Map(
    [...svg.matchAll(/<path id="([^"]+)" d="([^"]+)"\/>/g)].map(
      ([, id = '', data = '']) => [id, pointsOf(data)] as const,
    ),
  );
  const painted = svg.matchAll(/<path d="([^"]+)"\/>|<use xlink:href="#([^"]+)" x="([^"]+)" y="([^"]+)"\/>/g);
  return [...painted].map(([, data, id = '', x, y]): readonly Point[] =>
    data === undefined ? (shapes.get(id) ?? []).map(([a, b]) => [a + Number(x), b + Number(y)]) : pointsOf(data),
  );
}

function pointsOf(data: string): readonly Point[] {
  const points: Point[] = [];
  let at: Point = [0, 0];
  let start: Point = at;
  for (const [, command = '', written = ''] of data.matchAll(/([MmLlCcZz])([^MmLlCcZz]*)/g)) {
    if (command.toLowerCase() === 'z') {
      at = start;
      continue;
    }
    const numbers = [...written.matchAll(/-?\d*\.?\d+/g)].map(([number]) => Number(number));
    expect(numbers.length).toBe(command.toLowerCase() === 'c' ? 6 : 2);
    const [x = Number.NaN, y = Number.NaN] = numbers.slice(-2);
    at = command === command.toLowerCase() ? [at[0] + x, at[1] + y] : [x, y];
    if (command.toLowerCase() === 'm') start = at;
    points.push(at);
  }
  return points;
}

describe('a shape', () => {
  test('leads through the points of its outline, none off by more than can be seen', () => {
    const steps: PathStep[] = [
      ['M', 100.123, 50.456],
      ['L', 103.333, 50.456],
      ['C', 104.04, 51.05, 104.06, 52.15, 103.26, 53.35],
      ['Z'],
      ['M', 101.111, 51.987],
      ['L', 101.05, 52.04],
      ['Z'],
      ...Array.from({ length: 50 }, (_, index): PathStep => ['L', 100 + index * 0.1234, 60 - index * 0.0777]),
    ];
    const shape = shapeOf(steps);
    if (shape === undefined) throw new Error('no shape');
    const points = pointsOf(`M${shape.x} ${shape.y}${shape.drawn}`);
    const wanted = steps.flatMap((step) => (step[0] === 'Z' ? [] : [step.slice(-2) as unknown as Point]));
    expect(points).toHaveLength(wanted.length);
    // A tenth of a pixel from step to step, and a hundredth for the place.
    for (const [index, [x, y]] of wanted.entries()) {
      expect(Math.abs((points[index]?.[0] ?? Number.NaN) - x)).toBeLessThan(0.056);
      expect(Math.abs((points[index]?.[1] ?? Number.NaN) - y)).toBeLessThan(0.056);
    }
  });

  test('two that look alike are written alike wherever they stand, and none is written for nothing', () => {
    const at = (x: number, y: number): string | undefined =>
      shapeOf([
        ['M', x, y],
        ['L', x + 3.14, y - 2.71],
        ['L', x + 0.2, y + 5],
      ])?.drawn;
    expect(at(1000.37, 3.3)).toBe(at(0, 0));
    expect(shapeOf([])).toBeUndefined();
  });

  test('no line of music weighs more than 60 KB with its edge, and none draws a long shape twice', () => {
    const sizes = SAMPLES.flatMap(([, text]) => picturesFrom(text, 'wide').map((picture) => write(picture)));
    expect(Math.max(...sizes.map((svg) => svg.length))).toBeLessThan(60_000);
    for (const svg of sizes) {
      const long = [...svg.matchAll(/ d="M[-\d.]+ [-\d.]+([a-z][^"]{30,})"/g)].map(([, drawn]) => drawn);
      expect(new Set(long).size).toBe(long.length);
    }
  });
});

describe('a name', () => {
  const named = (words: string): string | undefined => pictureNames([{ section: 1, picture: 2, words }])[0];

  test.each([
    ['Four chords, four strokes', '01-02 Four chords four strokes'],
    ['../../etc/passwd', '01-02 etc passwd'],
    ['C:\\temp\\a|b?*"<>', '01-02 C temp a b'],
    ['con.', '01-02 con'],
    ['F♯ and B♭, C#', '01-02 F sharp and B flat C sharp'],
    ['Żółw e\u0301', '01-02 Żółw é'],
    ['…', '01-02'],
    ['a\u0000\n\tb', '01-02 a b'],
  ])('%j is %j', (words, name) => {
    expect(named(words)).toBe(name);
  });

  test('is never longer than a file may be called', () => {
    // Source: POSIX NAME_MAX as most systems have it, 255 bytes.
    for (const letter of ['a', 'é', '漢', '𝄞'])
      expect(Buffer.byteLength(named(letter.repeat(300)) ?? '')).toBeLessThan(200);
  });

  test('has as many figures as the lesson needs', () => {
    const places = Array.from({ length: 120 }, (_, index) => ({ section: index + 1, picture: 1, words: 'x' }));
    const names = pictureNames(places);
    expect([...names].sort()).toEqual(names);
    expect(names[0]).toBe('001-01 x');
  });
});

describe('a painted picture', () => {
  const [, text] = SAMPLES[0] ?? ['', ''];
  const [diagram] = picturesFrom(text, 'wide');
  const painted = async (svg: string): Promise<Uint8Array> => {
    const module = readFileSync(require.resolve('@resvg/resvg-wasm/index_bg.wasm'));
    return (await startRasteriser(module))(svg);
  };

  test('has the size of the frame, nothing behind it, and an edge around what is drawn', async () => {
    if (diagram === undefined) throw new Error('the sample has no diagram');
    const pixels = readPng(await painted(write(diagram)));
    expect([pixels.width, pixels.height]).toEqual([1920, 1080]);
    for (const [x, y] of [
      [0, 0],
      [1919, 0],
      [0, 1079],
      [1919, 1079],
      [300, 500],
    ] as const) {
      expect(pixels.at(x, y)[3]).toBe(0);
    }
    // Along a row through the diagram: from nothing over the light edge to the dark line.
    const row = Array.from({ length: 1920 }, (_, x) => pixels.at(x, 900));
    const first = row.findIndex(([, , , opaque]) => opaque === 255);
    expect(row[first]?.slice(0, 3)).toEqual([255, 255, 255]);
    expect(row.some(([red = 255, , , opaque]) => opaque === 255 && red < 60)).toBe(true);
  });

  test('is the same each time, and light ink is light', async () => {
    if (diagram === undefined) throw new Error('the sample has no diagram');
    const again = pictureWriter(FACES, { ink: 'dark', halo: true });
    expect(again(diagram)).toBe(write(diagram));
    const [first, second] = [await painted(write(diagram)), await painted(again(diagram))];
    expect(Buffer.compare(first, second)).toBe(0);
    const light = readPng(await painted(pictureWriter(FACES, { ink: 'light', halo: false })(diagram)));
    const row = Array.from({ length: 1920 }, (_, x) => light.at(x, 900)).filter(([, , , opaque]) => opaque === 255);
    expect(row.length).toBeGreaterThan(3);
    expect(row.every(([red = 0]) => red > 200)).toBe(true);
  });
});

test('letters are drawn where the sheet sets them: an outline of the face for each', () => {
  const [first] = picturesFrom('lesson A\nfor tenor ukulele, high G\nchord Bb7 1-2-1-1\n', 'wide');
  const svg = first === undefined ? '' : pictureWriter(FACES, { ink: 'dark', halo: false })(first);
  // The title is the only text; the B of the name has curves, which no line, dot or grid of a diagram has beside its circles.
  expect(svg).toContain('<title>B flat 7: string 4 fret 1');
  expect([...svg.matchAll(/c-?[\d.]/g)].length).toBeGreaterThan(40);
});

test('an empty lesson has no pictures, and a broken exercise none of its own', () => {
  expect(picturesFrom('', 'wide')).toEqual([]);
  expect(picturesFrom('lesson A\nexercise One\n  play nothing-of-that-name\n', 'wide')).toEqual([]);
});
