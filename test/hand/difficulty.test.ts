import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Change } from '../../shared/hand/change.ts';
import { changeBetween } from '../../shared/hand/change-between.ts';
import { judgeChange } from '../../shared/hand/change-speed.ts';
import { difficultyOfChange, difficultyOfShape, levelWord } from '../../shared/hand/difficulty.ts';
import { difficultyOfLesson, difficultyOfSequence } from '../../shared/hand/difficulty-of-sequence.ts';
import type { Fingering } from '../../shared/hand/fingering.ts';
import { fingeringsOf } from '../../shared/hand/fingering-search.ts';
import type { HandSize } from '../../shared/hand/hand.ts';
import type { SequenceChord } from '../../shared/hand/sequence.ts';
import { fingerSequence } from '../../shared/hand/sequence-fingering.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import type { Shape } from '../../shared/neck/shape.ts';
import { BARITONE, HIGH_G, instrument, shape } from '../neck/playing.ts';
import { SEED } from '../theory/reading.ts';
import { USUAL_CHART } from '../voicing/usual-chart.ts';
import { fingered, holding } from './sequences.ts';

const GUITAR = instrument('guitar');

function easiest(on: Instrument, frets: Shape, hand: HandSize): Fingering {
  const [first] = fingeringsOf(on, frets, hand);
  if (first === undefined) throw new Error('Four fingers cannot hold it.');
  return first;
}

/** Anchors of the scale: common practice, no source. Each shape is held as the engine holds it first. */
test.each([
  ['C', HIGH_G, '0003', 'medium', 1, 2],
  ['Am', HIGH_G, '2000', 'medium', 1, 2],
  ['F', HIGH_G, '2010', 'medium', 1, 2],
  ['G', HIGH_G, '0232', 'medium', 2, 3.5],
  ['G7', HIGH_G, '0212', 'medium', 2, 3.5],
  ['E', HIGH_G, '4442', 'medium', 3.7, 5.3],
  ['B flat', HIGH_G, '3211', 'medium', 3.7, 5.3],
  ['C on a guitar', GUITAR, 'x32010', 'medium', 2, 3.5],
  ['the full F on a guitar', GUITAR, '133211', 'medium', 5, 6.3],
  ['frets 1 to 5 on a baritone', BARITONE, '1-0-0-5', 'large', 6, 8],
  ['the same with two fingers between', BARITONE, '1-2-3-5', 'large', 7, 9],
  ['the full F for a small hand', GUITAR, '133211', 'small', 7, 8.5],
  ['D', HIGH_G, '2220', 'medium', 2, 3.5],
  ['the same for who cannot reach it', BARITONE, '1-0-0-5', 'medium', 10, 10],
  ['open strings', HIGH_G, '0000', 'medium', 0, 0],
] as const)('%s', (_name, on, frets, hand, least, most) => {
  const { total } = difficultyOfShape(easiest(on, shape(frets), hand));
  expect(total).toBeGreaterThanOrEqual(least);
  expect(total).toBeLessThanOrEqual(most);
});

// Common practice, no source: many are taught their first A on a guitar with the index finger between the others' strings.
test.each([
  ['A on a guitar', GUITAR, 'x02220', '002130'],
  ['D', HIGH_G, '2220', '2130'],
  ['D minor', HIGH_G, '2210', '3210'],
] as const)('%s with two fingers that changed places is little harder than in order', (_name, on, frets, fingers) => {
  const here = difficultyOfShape(holding(on, frets, fingers, 'medium')).total;
  expect(here).toBeGreaterThanOrEqual(3);
  expect(here).toBeLessThanOrEqual(3.5);
  expect(here).toBeGreaterThan(difficultyOfShape(easiest(on, shape(frets), 'medium')).total);
});

test('a number has a word', () => {
  expect([0, 1.99, 2, 4.5, 7.9, 8, 10].map(levelWord)).toEqual([
    'beginner',
    'beginner',
    'elementary',
    'intermediate',
    'advanced',
    'expert',
    'expert',
  ]);
});

const someFrets = fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 4, maxLength: 4 });
const someFingering = fc
  .tuple(someFrets, fc.constantFrom<HandSize>('child', 'small', 'medium', 'large'), fc.nat())
  .map(([frets, hand, pick]) => {
    const all = fingeringsOf(HIGH_G, frets, hand);
    return all[pick % all.length];
  });

test('a shape is 0 to 10, its parts nothing or more, their sum the whole where it can be reached', () => {
  fc.assert(
    fc.property(someFingering, (fingering) => {
      fc.pre(fingering !== undefined);
      const { total, parts } = difficultyOfShape(fingering);
      const values = Object.values(parts);
      for (const part of values) expect(part).toBeGreaterThanOrEqual(0);
      const sum = values.reduce((all, part) => all + part, 0);
      expect(total).toBeCloseTo(fingering.verdict === 'out-of-reach' ? 10 : Math.min(10, sum), 9);
    }),
    { seed: SEED, numRuns: 300 },
  );
});

test('a wider reach, a heavier barre, more awkwardness are never easier; a little wider is a little harder', () => {
  fc.assert(
    fc.property(someFingering, fc.double({ min: 0, max: 40, noNaN: true }), (fingering, more) => {
      fc.pre(fingering?.widest !== undefined);
      const { widest, cost } = fingering;
      const here = difficultyOfShape(fingering).total;
      const reaching = (mm: number): Fingering => {
        const reachMm = widest.reachMm + mm;
        const verdict =
          reachMm <= widest.limit.comfortableMm
            ? 'comfortable'
            : reachMm <= widest.limit.greatestMm
              ? 'stretched'
              : 'out-of-reach';
        return { ...fingering, verdict, widest: { ...widest, reachMm, verdict } };
      };
      const wider = reaching(more);
      expect(difficultyOfShape(wider).total).toBeGreaterThanOrEqual(here);
      expect(
        difficultyOfShape({ ...fingering, cost: { ...cost, barre: cost.barre + more } }).total,
      ).toBeGreaterThanOrEqual(here);
      expect(
        difficultyOfShape({ ...fingering, cost: { ...cost, awkwardness: cost.awkwardness + more } }).total,
      ).toBeGreaterThanOrEqual(here);
      const little = reaching(more + 0.1);
      if (little.verdict !== 'out-of-reach') {
        expect(difficultyOfShape(little).total - difficultyOfShape(wider).total).toBeLessThan(0.2);
      }
    }),
    { seed: SEED, numRuns: 300 },
  );
});

test('on a longer neck, and for a smaller hand, the same fingers are never an easier reach', () => {
  const HANDS = ['large', 'medium', 'small', 'child'] as const;
  for (const [frets] of USUAL_CHART) {
    for (const size of ['soprano', 'concert', 'tenor', 'baritone']) {
      const fingers = easiest(instrument(size), shape(frets), 'child')
        .fingers.map((finger) => finger ?? 0)
        .join('');
      const held = (on: Instrument, hand: HandSize) => difficultyOfShape(holding(on, frets, fingers, hand)).parts.reach;
      for (const [at, hand] of HANDS.entries()) {
        const here = held(instrument(size), hand);
        expect(here).toBeGreaterThanOrEqual(held(instrument(size), HANDS[at - 1] ?? hand));
        expect(
          held({ ...instrument(size), scaleLengthMm: instrument(size).scaleLengthMm + 30 }, hand),
        ).toBeGreaterThanOrEqual(here);
      }
    }
  }
});

const inSeconds = (change: Change, seconds: number) => difficultyOfChange(change, judgeChange(change, { seconds }));

test('a change is hard by what moves and by how little time there is', () => {
  const same = holding(HIGH_G, '2010', '2010');
  expect(inSeconds(changeBetween(HIGH_G, same, same), 0.01).total).toBe(0);
  const change = changeBetween(HIGH_G, holding(HIGH_G, '0003', '0003'), holding(HIGH_G, '0212', '0213'));
  expect(difficultyOfChange(change).parts.speed).toBe(0);
  expect(inSeconds(change, 1).total).toBeLessThan(2);
  const jump = changeBetween(HIGH_G, holding(HIGH_G, '0001', '0001'), holding(HIGH_G, '0-0-0-10', '0001'));
  expect(inSeconds(jump, 60 / 92 / 2).total).toBeGreaterThan(8);
  expect(inSeconds(jump, 0).total).toBe(10);
  fc.assert(
    fc.property(
      fc.double({ min: 0.05, max: 4, noNaN: true }),
      fc.double({ min: 1, max: 4, noNaN: true }),
      (seconds, times) => {
        for (const one of [change, jump]) {
          const { total } = inSeconds(one, seconds);
          expect(inSeconds(one, seconds / times).total).toBeGreaterThanOrEqual(total);
          expect(total).toBeGreaterThanOrEqual(difficultyOfChange(one).total);
        }
      },
    ),
    { seed: SEED, numRuns: 100 },
  );
});

/** Passages of our own; the bands: common practice, no source. */
test.each([
  ['one chord', '0003', 2, 0, 2],
  ['three first chords, slowly', '0003 2000 2010', 2, 1, 2.5],
  ['the same with G7', '0003 2010 0212 0003', 1, 2, 4],
  ['with E among them', '0003 4442 2000 2010', 2, 4, 5.5],
])('%s', (_name, written, seconds, least, most) => {
  const { total } = difficultyOfSequence(fingered(HIGH_G, written, seconds, { repeats: true }));
  expect(total).toBeGreaterThanOrEqual(least);
  expect(total).toBeLessThanOrEqual(most);
});

// Common practice, no source: a change on each second beat, at a beat a second and at twice that, is the tempo that students practise at.
test.each([
  ['C, F, G7, C', HIGH_G, '0003 2010 0212 0003'],
  ['D, Bm, G, A7', HIGH_G, '2220 4222 0232 0100'],
  ['D7, G', GUITAR, 'xx0212 320003'],
] as const)('%s in half a second instead of one is clearly harder', (_name, on, written) => {
  const points = [2, 1, 0.7, 0.5, 0.35, 0.25].map(
    (seconds) => difficultyOfSequence(fingered(on, written, seconds, { repeats: true })).total,
  );
  expect([...points].sort((one, other) => one - other)).toEqual(points);
  const [, slow = 0, , fast = 0] = points;
  expect(fast - slow).toBeGreaterThan(0.35);
  expect(fast - slow).toBeLessThan(2);
});

test('the hardest moment leads, and is named', () => {
  const { hardest, total, parts } = difficultyOfSequence(fingered(HIGH_G, '0003 3211 2010', 2));
  expect(hardest).toMatchObject({ kind: 'shape', at: 1, sequence: 0 });
  expect(total).toBeGreaterThanOrEqual(hardest?.difficulty.total ?? 10);
  expect(parts.barre).toBe(hardest?.difficulty.parts.barre);
  expect(difficultyOfSequence(fingered(HIGH_G, '0003 2010', 0.05)).hardest).toMatchObject({ kind: 'change', at: 1 });
});

test('out of reach is 10; given fingers that cannot work are a mistake and do not count', () => {
  expect(difficultyOfSequence(fingered(BARITONE, '0003 1-0-0-7', 1))).toMatchObject({
    total: 10,
    hardest: { kind: 'out-of-reach' },
  });
  expect(difficultyOfSequence(fingered(HIGH_G, '0003 4442:1111', 1)).total).toBe(
    difficultyOfSequence(fingered(HIGH_G, '0003', 1)).total,
  );
  expect(difficultyOfLesson([])).toMatchObject({ total: 0 });
});

test('what comes at two tempos counts at the faster one', () => {
  const [slow, fast] = [fingered(HIGH_G, '0003:0003 4442:2341', 2), fingered(HIGH_G, '0003:0003 4442:2341', 0.4)];
  const hard = difficultyOfSequence(fast).total;
  expect(hard).toBeGreaterThan(difficultyOfSequence(slow).total);
  expect(difficultyOfLesson([slow, fast]).total).toBe(hard);
  expect(difficultyOfLesson([fast, slow]).total).toBe(hard);
});

/** Chords with the fingers that they are held with first by a medium hand, so that no neighbour changes them. */
const someChord = fc.constantFrom(
  ...USUAL_CHART.map(
    ([frets]): SequenceChord => ({
      shape: shape(frets),
      given: easiest(HIGH_G, shape(frets), 'medium').fingers.map((finger) => finger ?? 0),
    }),
  ),
);
const someChords = fc.array(someChord, { minLength: 1, maxLength: 8 });
const playing = (chords: readonly SequenceChord[], seconds: number) =>
  fingerSequence(
    HIGH_G,
    chords.map((chord) => ({ ...chord, seconds })),
    'medium',
  );
const total = (chords: readonly SequenceChord[], seconds: number) =>
  difficultyOfSequence(playing(chords, seconds)).total;

test('with the same fingers: a chord more or a faster tempo is never easier, and the number stays within its bounds', () => {
  fc.assert(
    fc.property(someChords, someChord, fc.double({ min: 0.2, max: 3, noNaN: true }), (chords, one, seconds) => {
      const here = total(chords, seconds);
      expect(total([...chords, one], seconds)).toBeGreaterThanOrEqual(here - 1e-9);
      expect(total([one, ...chords], seconds)).toBeGreaterThanOrEqual(here - 1e-9);
      expect(total(chords, seconds / 1.5)).toBeGreaterThanOrEqual(here - 1e-9);
      const { hardest } = difficultyOfSequence(playing(chords, seconds));
      const most = hardest?.difficulty.total ?? 0;
      expect(here).toBeGreaterThanOrEqual(most - 1e-9);
      // A sequence of n chords has at most n shapes and n - 1 changes to learn.
      expect(here).toBeLessThanOrEqual(most * (2 * chords.length - 1) ** (1 / 12) + 1e-9);
    }),
    { seed: SEED, numRuns: 80 },
  );
});

test('playing it again changes nothing; a lesson is as hard as all its exercises together', () => {
  fc.assert(
    fc.property(someChords, someChords, fc.double({ min: 0.2, max: 3, noNaN: true }), (one, other, seconds) => {
      const [first, second] = [playing(one, seconds), playing(other, seconds)];
      const lesson = difficultyOfLesson([first, second]);
      expect(difficultyOfLesson([first, first]).total).toBe(difficultyOfSequence(first).total);
      expect(difficultyOfLesson([second, first]).total).toBeCloseTo(lesson.total, 9);
      for (const part of [first, second]) {
        expect(lesson.total).toBeGreaterThanOrEqual(difficultyOfSequence(part).total - 1e-9);
        for (const [name, points] of Object.entries(difficultyOfSequence(part).parts)) {
          expect(lesson.parts).toHaveProperty(name);
          expect(Object.entries(lesson.parts).find(([known]) => known === name)?.[1]).toBeGreaterThanOrEqual(points);
        }
      }
      const round = [...one, ...one.slice(0, 1)];
      expect(total([...round, ...one.slice(1), ...one.slice(0, 1)], seconds)).toBeCloseTo(total(round, seconds), 9);
    }),
    { seed: SEED, numRuns: 100 },
  );
});
