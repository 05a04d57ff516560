import { describe, expect, test } from 'vitest';
import { fingeringsOf } from '../../shared/hand/fingering-search.ts';
import { HAND_NAMES } from '../../shared/hand/hand.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { isPlayable, playableFirst, usualFingering } from '../../shared/voicing/playable.ts';
import { defaultShape, shapesFor } from '../../shared/voicing/shapes.ts';
import { instrument } from '../neck/playing.ts';
import { chord } from '../theory/reading.ts';

// Kinds of a beginners' and an intermediate chord chart, on all roots. Common practice, no source.
const KINDS = ['', 'm', '7', 'maj7', 'm7', 'dim', 'dim7', 'm7b5', 'aug', 'sus2', 'sus4', '6', 'm6', '9', '(add9)'];
const ROOTS = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'];
const NECKS = [
  'soprano ukulele',
  'concert ukulele',
  'tenor ukulele, high G',
  'tenor ukulele, low G',
  'baritone ukulele',
  'guitar',
];

describe('what a hand can hold', () => {
  test('is what some fingering of the search can, at ease or stretched', () => {
    for (const on of ['tenor ukulele', 'guitar'].map(instrument)) {
      for (const hand of HAND_NAMES) {
        for (const { shape } of shapesFor(chord('C7'), on, { max: 120 })) {
          const verdicts = fingeringsOf(on, shape, hand).map(({ verdict }) => verdict);
          expect(isPlayable(on, shape, hand)).toBe(verdicts.some((verdict) => verdict !== 'out-of-reach'));
        }
      }
    }
  });

  test('the same question gets the same answer, also above a capo', () => {
    const on = instrument('guitar, capo 2');
    const asked = usualFingering(on, [1, 3, 3, 2, 1, 1], 'medium');
    expect(asked?.fingers).toEqual([1, 3, 4, 2, 1, 1]);
    expect(usualFingering(on, [1, 3, 3, 2, 1, 1], 'medium')).toBe(asked);
    expect(usualFingering(on, [1, 3, 3, 2, 1, 1], 'small')).not.toBe(asked);
  });
});

describe('shapes that a hand cannot hold come last', () => {
  test.each(['small', 'child'] as const)('for a %s hand on a guitar, and nothing else moves', (hand) => {
    const on = instrument('guitar');
    const all = shapesFor(chord('Gm7'), on, { max: 400 });
    const sorted = playableFirst(all, on, hand);
    const playable = all.filter(({ shape }) => isPlayable(on, shape, hand));
    expect(playable.length).toBeLessThan(all.length);
    expect(sorted.slice(0, playable.length)).toEqual(playable);
    expect(sorted.slice(playable.length)).toEqual(all.filter((voicing) => !playable.includes(voicing)));
  });

  test('where the hand can hold them all, the list is the same one', () => {
    const on = instrument('soprano ukulele');
    const all = shapesFor(chord('C'), on, { max: 12 });
    expect(playableFirst(all, on, 'medium')).toBe(all);
  });
});

test.each(NECKS)('the shape that is taken for a chord can be held by the usual hand: %s', (name) => {
  const on = instrument(name);
  const beyond = ROOTS.flatMap((root) =>
    KINDS.flatMap((kind) => {
      const shape = defaultShape(chord(`${root}${kind}`), on)?.shape;
      return shape === undefined || isPlayable(on, shape, 'medium') ? [] : [`${root}${kind} ${printShape(shape)}`];
    }),
  );
  expect(beyond).toEqual([]);
});
