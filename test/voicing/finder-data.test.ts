import { expect, test } from 'vitest';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { judgeFit } from '../../shared/voicing/fit.ts';
import { shapesFor } from '../../shared/voicing/shapes.ts';
import { HIGH_G, instrument } from '../neck/playing.ts';
import type { LabelledShape } from './data-set.ts';
import { GUITAR_SHAPES, UKULELE_SHAPES } from './data-set.ts';
import type { Outcome } from './finder-figures.ts';
import { finderOutcomes } from './finder-figures.ts';

// Source: the open data set @tombatossals/chords-db 0.5.1 (MIT). Its own faults are counted, not hidden.
test.each<[string, readonly LabelledShape[], Instrument, Partial<Record<Outcome, number>>]>([
  ['ukulele', UKULELE_SHAPES, HIGH_G, { found: 2110, 'foreign note': 4 }],
  [
    'guitar',
    GUITAR_SHAPES,
    instrument('guitar'),
    { found: 2035, 'foreign note': 29, 'tone that makes the chord is missing': 2 },
  ],
])('every %s shape of the data set that is its chord is found under its label', (_name, shapes, on, expected) => {
  expect(finderOutcomes(on, shapes)).toEqual(expected);
});

// The set gives the shape lowest on the neck first, good or not: that one among the first of ours is a sign, no more.
test('the first ukulele shape of the data set is among our first six for nineteen in twenty chords', () => {
  const firsts = UKULELE_SHAPES.filter(({ entry, label, frets }) => {
    return / 1$/.test(entry) && judgeFit(HIGH_G, frets, label).foreign.length === 0;
  });
  const offered = firsts.filter(({ label, frets }) =>
    shapesFor(label, HIGH_G, { max: 6 }).some(({ shape }) => printShape(shape) === printShape(frets)),
  );
  expect(firsts.length).toBe(550);
  expect(offered.length / firsts.length).toBeGreaterThanOrEqual(0.94);
});
