import fc from 'fast-check';
import { expect, test } from 'vitest';
import { changeOf, type PlacedHand, placedHand } from '../../shared/hand/change-between.ts';
import { difficultyOfSequence } from '../../shared/hand/difficulty-of-sequence.ts';
import type { Fingering } from '../../shared/hand/fingering.ts';
import { fingeringsOf } from '../../shared/hand/fingering-search.ts';
import type { HandSize } from '../../shared/hand/hand.ts';
import { neckInMm } from '../../shared/hand/neck-in-mm.ts';
import type { FingeredSequence, SequenceChord } from '../../shared/hand/sequence.ts';
import { fingerSequence } from '../../shared/hand/sequence-fingering.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import type { Shape } from '../../shared/neck/shape.ts';
import { HIGH_G, instrument, shape } from '../neck/playing.ts';
import { SEED } from '../theory/reading.ts';
import { GUITAR_CHART } from '../voicing/guitar-chart.ts';
import { USUAL_CHART } from '../voicing/usual-chart.ts';
import { chordsOf, fingered, fingersChosen } from './sequences.ts';

const GUITAR = instrument('guitar');
const SOPRANO = instrument('soprano');
const BARITONE = instrument('baritone');

/** Which finger for C: charts disagree, so all are accepted; common practice, no source. The passages are our own. */
test('before G7 the ring finger holds C, because it slides along string 1; any finger that is given stays', () => {
  const chosen = fingered(HIGH_G, '0003 0212');
  expect(fingersChosen(chosen)).toBe('0003 0213');
  expect(chosen.changes[0]?.change.moves).toContainEqual(expect.objectContaining({ kind: 'slides' }));
  for (const given of ['0001', '0002', '0003', '0004']) {
    expect(fingersChosen(fingered(HIGH_G, `0003:${given} 0212`)).split(' ')[0]).toBe(given);
  }
});

test('the whole sequence decides, not each chord by itself', () => {
  const charts = USUAL_CHART.map(([frets]) => frets);
  let better = 0;
  for (const [at, frets] of charts.entries()) {
    const next = charts[(at + 7) % charts.length] ?? frets;
    const alone = [frets, next].map((one) => `${one}:${fingersChosen(fingered(HIGH_G, one))}`);
    const gained = fingered(HIGH_G, alone.join(' ')).effort - fingered(HIGH_G, `${frets} ${next}`).effort;
    expect(gained).toBeGreaterThan(-1e-9);
    better += Number(gained > 1e-9);
  }
  // Most keep the fingers that are taught; where much is saved, they change.
  expect(better).toBeGreaterThan(0);
  // After three bars of C too: nobody changes fingers for nothing.
  expect(fingersChosen(fingered(HIGH_G, '0003 0003 0003 0212'))).toBe('0003 0003 0003 0213');
});

// Common practice, no source: the fingers that beginners are taught for the four chords.
test('a round of four usual chords has the usual fingers at any usual tempo', () => {
  for (const seconds of [1, 2, 4]) {
    const sequence = fingered(HIGH_G, '0003 2000 2010 0232', seconds, { repeats: true });
    expect(fingersChosen(sequence)).toBe('0003 2000 2010 0132');
  }
});

test('index finger of F stays for G7', () => {
  const { changes } = fingered(HIGH_G, '2010 0212');
  expect(changes[0]?.change.moves[0]).toMatchObject({ kind: 'stays', to: { finger: 1 } });
});

test('a chord that nobody holds is told and passed over, and its time is added', () => {
  const sequence = fingered(BARITONE, '0003 1-0-0-7 2010 0003', 0.5, {}, 'small');
  expect(fingersChosen(sequence)).toBe('0003 out-of-reach 2010 0003');
  expect(sequence.chords[1]).toMatchObject({ message: expect.stringMatching(/out of reach: a small hand .*Warm up/) });
  expect(sequence.changes.map(({ from, to, speed }) => [from, to, speed?.seconds])).toEqual([
    [0, 2, 1],
    [2, 3, 0.5],
  ]);
  expect(fingersChosen(fingered(HIGH_G, '0003 4442:1111 2010'))).toBe('0003 given-fingers 2010');
  const eight = { ...GUITAR, openStrings: [...GUITAR.openStrings, ...GUITAR.openStrings.slice(0, 2)] };
  const shapes = [[1, 2, 3, 4, 5, 0, 0, 0]].map((frets): SequenceChord => ({ shape: frets }));
  expect(fingerSequence(eight, shapes, 'large').chords).toMatchObject([{ kind: 'skipped', why: 'too-few-fingers' }]);
  expect(fingered(HIGH_G, '4442:1111', 1, { repeats: true })).toMatchObject({ changes: [], stretches: 0, effort: 0 });
});

test('given fingers that are too far apart are out of reach, not a mistake', () => {
  expect(fingersChosen(fingered(HIGH_G, '0003 1-0-0-9:1004'))).toBe('0003 out-of-reach');
});

test('the last chord leads to the first again where the sequence repeats', () => {
  const chords = '0003 2010 0212';
  expect(fingered(HIGH_G, chords).changes.map(({ from, to }) => [from, to])).toEqual([
    [0, 1],
    [1, 2],
  ]);
  expect(fingered(HIGH_G, chords, 1, { repeats: true }).changes.map(({ from, to }) => [from, to])).toEqual([
    [0, 1],
    [1, 2],
    [2, 0],
  ]);
  expect(fingered(HIGH_G, '0003', 1, { repeats: true }).changes).toEqual([]);
  expect(fingerSequence(HIGH_G, [], 'medium', { repeats: true })).toEqual({
    chords: [],
    changes: [],
    stretches: 0,
    effort: 0,
  });
});

test('open strings between do not make a jump for nothing', () => {
  const tooQuick = (written: string) =>
    fingered(HIGH_G, written, 0.2).changes.filter(({ speed }) => speed?.verdict === 'too-quick').length;
  expect(tooQuick('2010 0-0-0-12')).toBe(1);
  expect(tooQuick('2010 0000 0-0-0-12')).toBe(1);
  expect(tooQuick('2010 0000 0003')).toBe(0);
});

/** Shapes of the frets 0 to 5, some strings muted. */
const someShape = fc.array(
  fc.oneof(
    { weight: 5, arbitrary: fc.integer({ min: 0, max: 5 }) },
    { weight: 1, arbitrary: fc.constant('muted' as const) },
  ),
  { minLength: 4, maxLength: 4 },
);
const usualShape = fc.constantFrom(...USUAL_CHART.map(([frets]) => shape(frets)));
const someSeconds = fc.constantFrom(0.15, 0.3, 0.5, 1, undefined);
const someChord: fc.Arbitrary<SequenceChord> = fc
  .tuple(fc.oneof(someShape, usualShape), someSeconds)
  .map(([frets, seconds]) => ({ shape: frets, ...(seconds === undefined ? {} : { seconds }) }));
const someChords = (most: number) => fc.array(someChord, { minLength: 1, maxLength: most });
const someHand = fc.constantFrom<HandSize>('child', 'small', 'medium', 'large');

interface Way {
  readonly fingering: Fingering;
  readonly hand: PlacedHand;
}

/** Every way to hold each chord, open strings wherever the hand may be; the same list as the search has, made otherwise. */
function waysOf(on: Instrument, chords: readonly SequenceChord[], hand: HandSize): readonly (readonly Way[])[] {
  const all = chords.map(({ shape: frets }) =>
    fingeringsOf(on, frets, hand)
      .filter(({ verdict }) => verdict !== 'out-of-reach')
      .map((fingering): Way => ({ fingering, hand: placedHand(fingering.presses) })),
  );
  const positions = new Set(all.flat().flatMap((way) => way.hand.positionFret ?? []));
  return all.map((ways) =>
    ways.flatMap((way) =>
      way.fingering.presses.length > 0 || positions.size === 0
        ? [way]
        : [...positions].map((positionFret) => ({ ...way, hand: { presses: [], positionFret } })),
    ),
  );
}

/** The best of every combination, one after the other: no dynamic programming, no tables. */
function bruteForce(on: Instrument, chords: readonly SequenceChord[], hand: HandSize, repeats: boolean) {
  const ways = waysOf(on, chords, hand);
  const neck = neckInMm(on);
  let best = { stretches: Number.POSITIVE_INFINITY, effort: Number.POSITIVE_INFINITY };
  const visit = (at: number, chosen: readonly Way[], stretches: number, effort: number): void => {
    if (at === ways.length) {
      if (stretches < best.stretches || (stretches === best.stretches && effort < best.effort))
        best = { stretches, effort };
      return;
    }
    for (const way of ways[at] ?? []) {
      const path = [...chosen, way];
      const arcs = [
        ...(at > 0 ? [[at - 1, at] as const] : []),
        ...(repeats && at > 0 && at === ways.length - 1 ? [[at, 0] as const] : []),
      ];
      const more = Number(way.fingering.verdict === 'stretched');
      let cost = 2 * way.fingering.cost.total;
      for (const [from, to] of arcs) {
        const [one, other] = [path[from], path[to]];
        if (one === undefined || other === undefined) continue;
        const change = changeOf(neck, one.hand, other.hand);
        cost += change.cost.total;
      }
      visit(at + 1, path, stretches + more, effort + cost);
    }
  };
  visit(0, [], 0, 0);
  return best;
}

test('trying every combination finds nothing better', () => {
  let compared = 0;
  fc.assert(
    fc.property(
      fc.constantFrom(HIGH_G, SOPRANO, BARITONE),
      someChords(4),
      someHand,
      fc.boolean(),
      (on, chords, hand, repeats) => {
        const counts = waysOf(on, chords, hand).map(({ length }) => length);
        const combinations = counts.reduce((product, count) => product * count, 1);
        fc.pre(combinations > 0 && combinations <= 1500);
        compared += 1;
        const { stretches, effort } = fingerSequence(on, chords, hand, { repeats });
        const best = bruteForce(on, chords, hand, repeats);
        expect(stretches).toBe(best.stretches);
        expect(effort).toBeCloseTo(best.effort, 9);
      },
    ),
    { seed: SEED, numRuns: 120 },
  );
  expect(compared).toBe(120);
});

/** What is told adds up to what was promised. */
function addedUp({ chords, changes }: FingeredSequence) {
  let stretches = 0;
  let effort = 0;
  for (const chord of chords) {
    if (chord.kind === 'skipped') continue;
    stretches += Number(chord.fingering.verdict === 'stretched');
    effort += 2 * chord.fingering.cost.total;
  }
  for (const { change } of changes) effort += change.cost.total;
  return { stretches, effort };
}

test('the fingers told are the ones that were chosen', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(HIGH_G, BARITONE),
      someChords(12),
      someHand,
      fc.boolean(),
      (on, chords, hand, repeats) => {
        const sequence = fingerSequence(on, chords, hand, { repeats });
        const sum = addedUp(sequence);
        expect(sequence.stretches).toBe(sum.stretches);
        expect(sequence.effort).toBeCloseTo(sum.effort, 9);
      },
    ),
    { seed: SEED, numRuns: 80 },
  );
});

test('the tempo changes no finger, and slower is never harder', () => {
  fc.assert(
    fc.property(someChords(8), fc.double({ min: 1, max: 3, noNaN: true }), fc.boolean(), (chords, times, repeats) => {
      const slower = chords.map((chord) =>
        chord.seconds === undefined ? chord : { ...chord, seconds: chord.seconds * times },
      );
      const here = fingerSequence(HIGH_G, chords, 'medium', { repeats });
      const there = fingerSequence(HIGH_G, slower, 'medium', { repeats });
      expect(fingersChosen(there)).toBe(fingersChosen(here));
      expect(there.effort).toBe(here.effort);
      expect(difficultyOfSequence(there).total).toBeLessThanOrEqual(difficultyOfSequence(here).total + 1e-9);
    }),
    { seed: SEED, numRuns: 100 },
  );
});

// Common practice, no source: the fingers that are taught for these chords, kept where another finger would save a little on the way.
test.each([
  [GUITAR, 'xx0212 320003', '000213 210003'],
  [HIGH_G, '2220 4222 0232 0100', '1230 3111 0132 0100'],
  [HIGH_G, '2120 4222 2100 1402', '2130 3111 2100 1402'],
  [GUITAR, 'x32010 133211', '032010 134211'],
  [GUITAR, '320003 x32010 xx0232', '210003 032010 000132'],
] as const)('a round has the fingers that are taught, at any tempo', (on, chords, fingers) => {
  for (const seconds of [undefined, 0.25, 0.3, 0.5, 1]) {
    expect(fingersChosen(fingered(on, chords, seconds, { repeats: true }))).toBe(fingers);
  }
});

test('a larger hand never adds a stretch where the smaller one holds every chord', () => {
  const HANDS = ['child', 'small', 'medium', 'large'] as const;
  let compared = 0;
  fc.assert(
    fc.property(
      fc.constantFrom(HIGH_G, BARITONE),
      someChords(6),
      fc.integer({ min: 0, max: 2 }),
      (on, chords, place) => {
        const here = fingerSequence(on, chords, HANDS[place] ?? 'child', {});
        fc.pre(here.chords.every(({ kind }) => kind === 'held'));
        compared += 1;
        for (const larger of HANDS.slice(place + 1)) {
          expect(fingerSequence(on, chords, larger, {}).stretches).toBeLessThanOrEqual(here.stretches);
        }
      },
    ),
    { seed: SEED, numRuns: 100 },
  );
  expect(compared).toBe(100);
});

/** Strings that run side by side, so that every set of strings has the same geometry. */
const PARALLEL: Instrument = { ...GUITAR, bridgePitchMm: GUITAR.stringPitchMm };

test('the same chords one string over are held the same', () => {
  const threeStrings = fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 3, maxLength: 3 });
  fc.assert(
    fc.property(fc.array(threeStrings, { minLength: 1, maxLength: 5 }), fc.boolean(), (rows, repeats) => {
      const onStrings = (first: number) =>
        rows.map((row): SequenceChord => {
          const muted = (count: number): Shape => new Array<'muted'>(count).fill('muted');
          return { shape: [...muted(first), ...row, ...muted(3 - first)], seconds: 0.4 };
        });
      const here = fingerSequence(PARALLEL, onStrings(0), 'large', { repeats });
      for (const first of [1, 2, 3]) {
        const there = fingerSequence(PARALLEL, onStrings(first), 'large', { repeats });
        expect(there.stretches).toBe(here.stretches);
        expect(there.effort).toBeCloseTo(here.effort, 9);
        expect(fingersChosen(there).replaceAll('0', '')).toBe(fingersChosen(here).replaceAll('0', ''));
      }
    }),
    { seed: SEED, numRuns: 60 },
  );
});

test('a round may begin anywhere', () => {
  fc.assert(
    fc.property(someChords(8), fc.nat(), (chords, turn) => {
      const at = turn % chords.length;
      const turned = [...chords.slice(at), ...chords.slice(0, at)];
      const here = fingerSequence(HIGH_G, chords, 'medium', { repeats: true });
      const there = fingerSequence(HIGH_G, turned, 'medium', { repeats: true });
      expect(there.stretches).toBe(here.stretches);
      expect(there.effort).toBeCloseTo(here.effort, 9);
    }),
    { seed: SEED, numRuns: 100 },
  );
});

test('six strings, the thumb where it is wished for', () => {
  const shapes = GUITAR_CHART.flatMap(([, ...frets]) =>
    frets.map((one): SequenceChord => ({ shape: shape(one), seconds: 1 })),
  );
  const sequence = fingerSequence(GUITAR, shapes, 'medium', { repeats: true });
  expect(sequence.chords.filter(({ kind }) => kind === 'skipped')).toEqual([]);
  expect(sequence.changes).toHaveLength(shapes.length);
  expect(fingersChosen(fingerSequence(GUITAR, chordsOf('200232:T00132'), 'medium', { thumb: true }))).toBe('T00132');
});
