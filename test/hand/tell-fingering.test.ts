import { expect, test } from 'vitest';
import { fingeringsOf } from '../../shared/hand/fingering-search.ts';
import { HAND_NAMES } from '../../shared/hand/hand.ts';
import { CAUTION_ON_STRETCH } from '../../shared/hand/reach.ts';
import { tellFingering } from '../../shared/hand/tell-fingering.ts';
import type { Fret } from '../../shared/neck/shape.ts';
import { BARITONE, HIGH_G, instrument } from '../neck/playing.ts';
import { judged } from './fingers.ts';

const GUITAR = instrument('guitar');

test.each([
  [HIGH_G, '0003', '0003', 'Ring finger on string 1 at fret 3.'],
  [HIGH_G, '1402', '1402', 'One finger a fret, from fret 1 up.'],
  [HIGH_G, '5555', '1111', 'The index finger lies across all strings at fret 5.'],
  [HIGH_G, '2220', '1230', 'Index, middle and ring finger stand side by side in fret 2.'],
  [
    HIGH_G,
    '4442',
    '3331',
    'The ring finger lies across strings 4 to 2 at fret 4. Its middle bends up, so that string 1 is free. One finger a fret, from fret 2 up.',
  ],
  [
    GUITAR,
    'x02220',
    '002130',
    'Middle, index and ring finger stand side by side in fret 2. The middle finger is nearer the bass side than the index finger, the other way round than usual.',
  ],
  [
    GUITAR,
    'x32010',
    '032010',
    'One finger a fret, from fret 1 up. The ring finger touches string 6 and keeps it silent.',
  ],
  [GUITAR, '200002', 'T00001', 'The thumb comes over the edge of the neck at fret 2.'],
] as const)('a teacher on $1 with $2', (on, frets, fingers, told) => {
  const { fingering } = judged(on, frets, fingers);
  expect(fingering && tellFingering(fingering, 'medium')).toBe(told);
});

test('wherever a stretch is told, so is the caution, and nowhere else', () => {
  const low: readonly Fret[] = [1, 2, 3];
  for (const hand of HAND_NAMES) {
    for (const on of [BARITONE, { ...BARITONE, scaleLengthMm: 650 }]) {
      for (const from of low) {
        for (const to of [3, 4, 5, 6]) {
          for (const way of fingeringsOf(on, [from, 0, 0, to], hand)) {
            const told = tellFingering(way, hand);
            expect(told.includes(CAUTION_ON_STRETCH)).toBe(way.verdict !== 'comfortable');
            expect(told.includes('mm apart')).toBe(way.verdict !== 'comfortable');
          }
        }
      }
    }
  }
});
