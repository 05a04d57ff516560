import { expect, test } from 'vitest';
import type { Instrument } from '../../shared/neck/instrument.ts';
import type { Fret } from '../../shared/neck/shape.ts';
import { printShape, stringNumber } from '../../shared/neck/shape.ts';
import { judgeFit } from '../../shared/voicing/fit.ts';
import { shapesFor } from '../../shared/voicing/shapes.ts';
import { HIGH_G, instrument } from '../neck/playing.ts';
import type { LabelledShape } from './data-set.ts';
import { GUITAR_SHAPES, UKULELE_SHAPES } from './data-set.ts';
import { fingersNeeded, spanOf } from './holding.ts';

/** What becomes of a shape of the set: found, or why the finder need not find it under its label. */
type Outcome = 'found' | 'not found' | 'foreign note' | 'tone that makes the chord is missing' | 'beyond the limits';

function outcomeFor(on: Instrument, { label, frets }: LabelledShape): Outcome {
  const fit = judgeFit(on, frets, label);
  if (fit.foreign.length > 0) return 'foreign note';
  if (fit.verdict === 'does-not-fit' || fit.writtenBass === 'missing') return 'tone that makes the chord is missing';
  if (spanOf(frets) > 4 || fingersNeeded(frets) > 4) return 'beyond the limits';
  const strings = (wanted: (fret: Fret) => boolean) =>
    frets.flatMap((fret, at) => (wanted(fret) ? [stringNumber(at, frets.length)] : []));
  const stopped = frets.filter((fret): fret is number => fret !== 'muted' && fret > 0);
  const found = shapesFor(label, on, {
    max: Number.POSITIVE_INFINITY,
    within: [Math.min(...stopped), Math.max(...stopped)],
    ringOpen: strings((fret) => fret === 0),
    muted: strings((fret) => fret === 'muted'),
  });
  return found.some(({ shape }) => printShape(shape) === printShape(frets)) ? 'found' : 'not found';
}

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
  const outcomes: Partial<Record<Outcome, number>> = {};
  for (const labelled of shapes) {
    const outcome = outcomeFor(on, labelled);
    outcomes[outcome] = (outcomes[outcome] ?? 0) + 1;
  }
  expect(outcomes).toEqual(expected);
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
