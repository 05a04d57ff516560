import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { openDocument } from '../../shared/lesson/document.ts';
import { allSpans } from './asking.ts';

/** One seed for all: a failure today is the same failure tomorrow. */
const SEED = 20_261_125;

const folder = new URL('../../client/samples/', import.meta.url);
const samples = readdirSync(folder)
  .filter((file) => file.endsWith('.lesson'))
  .map((file) => ({ file, text: readFileSync(new URL(file, folder), 'utf8') }));

function outOfRange(text: string, offset: number): readonly string[] {
  return allSpans(openDocument(text), offset)
    .filter(({ start, end }) => start < 0 || start > end || end > text.length)
    .map(({ start, end }) => `${start} to ${end} of ${text.length}`);
}

/** A place in a text, and how much of the text has been typed: the cursor is often at the end. */
const typing = fc.record({
  length: fc.double({ min: 0, max: 1, noNaN: true }),
  back: fc.oneof(fc.constant(0), fc.nat(80), fc.nat(4000)),
  slip: fc.constantFrom('', '', '|', '@', ':', '(', '\n', '\n  ', 'x', ' ', '.'),
});

describe('no answer fails, and every place is in the text', () => {
  test.each(samples)('at any place of any beginning of $file', ({ text: whole }) => {
    fc.assert(
      fc.property(typing, ({ length, back, slip }) => {
        const text = whole.slice(0, Math.floor(length * whole.length)) + slip;
        expect(outOfRange(text, Math.max(0, text.length - back))).toEqual([]);
      }),
      { seed: SEED, numRuns: 30 },
    );
  });

  // One lesson small enough to be asked at every place of every beginning.
  const SMALL =
    '\ufefflesson L\r\nfor guitar, capo 2\nchord Em.a 022000 fingers 0-2-3\n> Hold @Em.a.\npattern r\n count 1 &\n pick Rp 1m:5\n like\nexercise e\n over Em.a, C\n with r +';

  test('at every place of every beginning of a small lesson', () => {
    for (let length = 0; length <= SMALL.length; length++) {
      const text = SMALL.slice(0, length);
      const document = openDocument(text);
      // All places of the last six: what stands before them was asked when the beginning was shorter.
      for (let offset = Math.max(0, length - 6); offset <= length; offset++) {
        const wrong = allSpans(document, offset).filter(({ start, end }) => start < 0 || start > end || end > length);
        if (wrong.length > 0) expect({ text, offset, wrong }).toEqual({ text, offset, wrong: [] });
      }
    }
  });

  test.each([-1, 10_000])('nor at the place %d, which the text does not have', (offset) => {
    expect(() => allSpans(openDocument('key C\n'), offset)).not.toThrow();
  });
});
