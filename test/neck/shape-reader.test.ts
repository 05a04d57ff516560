import fc from 'fast-check';
import { expect, test } from 'vitest';
import { printShape, type Shape } from '../../shared/neck/shape.ts';
import { readFrets } from '../../shared/neck/shape-reader.ts';
import { SEED } from '../theory/reading.ts';

test.each([
  ['0-4-3-2', '0-4-3-2'],
  ['0432', '0-4-3-2'],
  ['x-0-1-0', 'x-0-1-0'],
  ['X021', 'x-0-2-1'],
  ['0–4–3–2', '0-4-3-2'],
  ['0—4—3—2', '0-4-3-2'],
  ['0−4−3−2', '0-4-3-2'],
  ['12 12 11 0', '12-12-11-0'],
  ['12-12-11-0', '12-12-11-0'],
  ['12, 12, 11, 0', '12-12-11-0'],
  ['０４３２', '0-4-3-2'],
])('%s on four strings', (written, printed) => {
  const read = readFrets(written, 4);
  expect(read.ok ? printShape(read.value.shape) : read.problem).toBe(printed);
});

test('five to eight strings', () => {
  for (const [written, count] of [
    ['00232', 5],
    ['x02210', 6],
    ['0-2-2-1-0-0-3', 7],
    ['00000000', 8],
  ] as const) {
    const read = readFrets(written, count);
    expect(read.ok ? read.value.shape.length : read.problem).toBe(count);
    expect(readFrets(written).ok).toBe(true);
  }
});

test.each([
  [
    '0-4',
    'shape.too-few-frets',
    '2 of 4 frets so far: write one for each string, 0 for an open one, x for a silent one.',
    '0-4',
  ],
  [
    '0-4-',
    'shape.too-few-frets',
    '2 of 4 frets so far: write one for each string, 0 for an open one, x for a silent one.',
    '0-4-',
  ],
  [
    '12',
    'shape.too-few-frets',
    '2 of 4 frets so far: write one for each string, 0 for an open one, x for a silent one.',
    '12',
  ],
  [
    '',
    'shape.too-few-frets',
    '0 of 4 frets so far: write one for each string, 0 for an open one, x for a silent one.',
    '',
  ],
  ['0-4-3-2-1', 'shape.too-many-frets', '5 frets for 4 strings: 1 too many.', '1'],
  ['x02210', 'shape.too-many-frets', '6 frets for 4 strings: 2 too many.', '10'],
  ['0-q-3-2', 'shape.unreadable-fret', '', 'q'],
  ['99-0-0-0', 'shape.no-such-fret', 'No neck has a fret 99.', '99'],
])('%s is %s', (written, code, message, marked) => {
  const read = readFrets(written, 4);
  if (read.ok) throw new Error('was read');
  expect(read.problem.code).toBe(code);
  if (message !== '') expect(read.problem.message).toBe(message);
  expect(written.slice(read.problem.span.start, read.problem.span.end)).toBe(marked);
});

test('what is printed reads back, with every fret under its span', () => {
  const fret = fc.oneof(fc.integer({ min: 0, max: 24 }), fc.constant('muted' as const));
  fc.assert(
    fc.property(fc.array(fret, { minLength: 4, maxLength: 8 }), (shape: Shape) => {
      const text = printShape(shape);
      const read = readFrets(text, shape.length);
      if (!read.ok) throw new Error(read.problem.message);
      expect(read.value.shape).toEqual(shape);
      const marked = read.value.spans.map((span) => text.slice(span.start, span.end));
      expect(marked).toEqual(shape.map((one) => (one === 'muted' ? 'x' : String(one))));
    }),
    { seed: SEED, numRuns: 500 },
  );
});

test('reading never fails by exception', () => {
  fc.assert(
    fc.property(fc.string(), fc.option(fc.integer({ min: 4, max: 8 }), { nil: undefined }), (text, strings) => {
      const read = readFrets(text, strings);
      if (!read.ok) expect(read.problem.span.start >= 0 && read.problem.span.end <= text.length).toBe(true);
    }),
    { seed: SEED, numRuns: 2000 },
  );
});
