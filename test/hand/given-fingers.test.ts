import { expect, test } from 'vitest';
import { HIGH_G, instrument } from '../neck/playing.ts';
import { faultsOf, judged } from './fingers.ts';

const GUITAR = instrument('guitar');

test.each([
  ['fingers that are too few', '0003', '003', 'fingers.count', '3 fingers for 4 strings'],
  ['one finger for four strings', '0003', '3', 'fingers.count', '1 finger for 4 strings'],
  ['a finger that hands have not', '0003', '0007', 'fingers.not-a-finger', 'there is no finger 7'],
  ['a stopped string without one', '0003', '0000', 'fingers.missing', 'String 1 is stopped at fret 3'],
  ['one on an open string', '0003', '0103', 'fingers.on-open', 'String 3 is open'],
  ['one in two frets', '0043', '0011', 'fingers.two-frets', 'frets 4 and 3 at once'],
  ['a barre over an open string', '2020', '1010', 'fingers.barre', 'string 3 too, which is to ring open'],
  ['a barre over a lower string', '4434', '2212', 'fingers.barre', 'string 2 too, which is stopped lower, at fret 3'],
  ['a finger behind a lower one', '3121', '1232', 'fingers.crossed', 'middle finger at fret 1 would cross behind'],
  ['fingers over each other in a fret', '2222', '1221', 'fingers.crossed', 'would lie over each other'],
  [
    'fingers that change places over a third',
    '2220',
    '3210',
    'fingers.crossed',
    'ring finger would cross over the index',
  ],
])('%s', (_what, frets, fingers, code, part) => {
  const { faults, fingering } = judged(HIGH_G, frets, fingers);
  expect(faults.map((fault) => fault.code)).toContain(code);
  expect(faults.map(({ message }) => message).join(' ')).toContain(part);
  expect(fingering).toBeUndefined();
});

test('neighbouring fingers may change places in a fret', () => {
  expect(faultsOf(GUITAR, 'x02220', '002130')).toEqual([]);
  expect(judged(GUITAR, 'x02220', '002130').fingering?.reasons).toContainEqual({
    kind: 'reversed',
    fret: 2,
    fingers: [2, 1],
  });
});

test('a finger covers no more strings than it is long for; a longer one covers more', () => {
  expect(faultsOf(HIGH_G, '3333', '4444')).toEqual(['fingers.too-wide']);
  expect(faultsOf(HIGH_G, '3333', '1111', 'child')).toEqual([]);
  expect(faultsOf(HIGH_G, '4442', '4441', 'child')).toEqual(['fingers.too-wide']);
  expect(faultsOf(HIGH_G, '4442', '4441', 'large')).toEqual([]);
});

test('fingers that are only too far apart still make a fingering, with whose limit it is', () => {
  const { fingering, faults } = judged(GUITAR, '1-0-0-0-0-5', '100004');
  expect(fingering?.verdict).toBe('out-of-reach');
  expect(faults).toHaveLength(1);
  expect(faults[0]).toMatchObject({ code: 'fingers.out-of-reach', strings: [0, 5] });
  expect(faults[0]?.message).toMatch(
    /^Index and little finger are 127 mm apart, out of reach: a medium hand has about 98 mm/,
  );
  expect(faults[0]?.message).toMatch(/Warm up; if it hurts, stop and ask/);
});
