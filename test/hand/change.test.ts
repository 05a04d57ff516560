import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Change } from '../../shared/hand/change.ts';
import { changeBetween } from '../../shared/hand/change-between.ts';
import { judgeChange, neededSecondsFor } from '../../shared/hand/change-speed.ts';
import { CHANGE_EFFORT } from '../../shared/hand/change-table.ts';
import { fingeringsOf } from '../../shared/hand/fingering-search.ts';
import { tellChange, tellSpeed } from '../../shared/hand/tell-change.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { withCapo } from '../../shared/neck/instruments.ts';
import { HIGH_G, instrument } from '../neck/playing.ts';
import { SEED } from '../theory/reading.ts';
import { holding } from './sequences.ts';

const GUITAR = instrument('guitar');
const SOPRANO = instrument('soprano');

/** `0013:0013 0212:0213` on an instrument. */
function change(on: Instrument, written: string): Change {
  const [from, to] = written.split(' ').map((chord) => {
    const [frets = '', fingers = ''] = chord.split(':');
    return holding(on, frets, fingers);
  });
  if (from === undefined || to === undefined) throw new Error('A change has two sides.');
  return changeBetween(on, from, to);
}

const told = (on: Instrument, written: string) => tellChange(change(on, written), on.openStrings.length);

/** What a teacher says; common practice, no source. The passages are our own. */
test.each([
  [
    'an anchor, a guide and a new finger',
    '0013:0013 0212:0213',
    'Keep finger 1 on string 2; finger 3 slides from fret 3 to fret 2 on string 1; put finger 2 down on string 3 at fret 2.',
  ],
  ['F to C', '2010:2010 0003:0003', 'Lift finger 1; lift finger 2; put finger 3 down on string 1 at fret 3.'],
  ['the same again', '2010:2010 2010:2010', 'All fingers stay where they are.'],
  ['open strings', '0000:0000 0000:0000', 'No finger is needed before or after.'],
  [
    'a barre comes down',
    '2010:2010 3111:3111',
    'Finger 1 lies down across strings 3 to 1 in fret 1; lift finger 2; put finger 3 down on string 4 at fret 3.',
  ],
  ['a barre gets up', '3211:3211 0001:0001', 'Finger 1 gets up to string 1 in fret 1; lift finger 2; lift finger 3.'],
  [
    'a shape moved up',
    '1113:1113 3335:1113',
    'Finger 1 slides from fret 1 to fret 3 on strings 4 to 2; finger 3 slides from fret 3 to fret 5 on string 1. The hand goes up the neck by 2 frets (44 mm).',
  ],
])('%s', (_name, written, sentence) => {
  expect(told(HIGH_G, written)).toBe(sentence);
});

test('each finger goes its way in mm', () => {
  const { moves, shift } = change(HIGH_G, '0013:0013 0212:0213');
  // A tip presses 5 mm behind its wire; on 432 mm the wires of frets 2 and 3 are 47.12 and 68.73 mm from the nut: 12-TET arithmetic.
  expect(moves.map(({ kind }) => kind)).toEqual(['stays', 'lands', 'slides']);
  expect(moves[2]).toMatchObject({
    distanceMm: expect.closeTo(68.73 - 47.12, 1),
    roomMm: expect.closeTo(47.12 - 24.25, 1),
  });
  expect(shift).toBeUndefined();
  const jump = change(HIGH_G, '0001:0001 0-0-0-10:0001');
  const wireMm = (fret: number) => 432 * (1 - 2 ** (-fret / 12));
  expect(jump.shift).toMatchObject({ fromFret: 1, toFret: 10, distanceMm: expect.closeTo(wireMm(10) - wireMm(1), 6) });
  // Two strings over: twice the distance of strings, and one fret along.
  const across = change(HIGH_G, '0002:0002 0300:0200').moves[0];
  const pitchMm = 9.4 + ((13.7 - 9.4) * wireMm(3)) / 432;
  expect(across).toMatchObject({
    kind: 'moves',
    distanceMm: expect.closeTo(Math.hypot(wireMm(3) - wireMm(2), 2 * pitchMm), 6),
  });
});

test('a finger that stays holds the hand, another one takes it along', () => {
  expect(change(HIGH_G, '2010:2010 2020:2030').shift).toBeUndefined();
  expect(change(HIGH_G, '0001:0001 0003:0001').shift).toMatchObject({ fromFret: 1, toFret: 3 });
  // Nothing presses before: the hand may already be there.
  expect(change(HIGH_G, '0000:0000 0-0-0-12:0001').shift).toBeUndefined();
});

test('the thumb is told by name', () => {
  const sentence = told(GUITAR, '200232:T00132 000232:000132');
  expect(sentence).toBe(
    'Keep finger 1 on string 3; keep finger 2 on string 1; keep finger 3 on string 2; lift the thumb.',
  );
});

const NECKS = [HIGH_G, SOPRANO, instrument('baritone'), withCapo(HIGH_G, 2)];
const fretsOfFour = fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 4, maxLength: 4 });
const someChange = fc
  .tuple(fc.constantFrom(...NECKS), fretsOfFour, fretsOfFour, fc.nat(), fc.nat())
  .map(([on, one, other, pickOne, pickOther]) => {
    const [from, to] = [fingeringsOf(on, one, 'large'), fingeringsOf(on, other, 'large')];
    return { on, from: from[pickOne % from.length], to: to[pickOther % to.length] };
  });

test('a change costs nothing or more, the same fingering nothing; there and back differ by what lands and lifts', () => {
  fc.assert(
    fc.property(someChange, ({ on, from, to }) => {
      fc.pre(from !== undefined && to !== undefined);
      expect(changeBetween(on, from, from).cost.total).toBe(0);
      expect(neededSecondsFor(changeBetween(on, from, from))).toBe(0);
      const there = changeBetween(on, from, to);
      const back = changeBetween(on, to, from);
      for (const part of Object.values(there.cost)) expect(part).toBeGreaterThanOrEqual(0);
      expect(back.cost.shift).toBeCloseTo(there.cost.shift, 9);
      expect(back.moves.map(({ kind }) => MIRRORED[kind])).toEqual(there.moves.map(({ kind }) => kind));
      const ways = ({ moves }: Change) => moves.map((move) => (move.kind === 'stays' ? 0 : move.distanceMm));
      for (const [at, mm] of ways(there).entries()) expect(ways(back)[at]).toBeCloseTo(mm, 9);
      const acts = ({ moves }: Change) =>
        moves.reduce((sum, { kind }) => sum + (kind === 'stays' ? 0 : CHANGE_EFFORT[kind]), 0);
      const flat = ({ moves }: Change) =>
        moves.reduce((sum, move) => {
          const lands = move.kind === 'lands' || move.kind === 'moves' || move.kind === 'rolls';
          return sum + (lands ? (move.to.to - move.to.from) * CHANGE_EFFORT.furtherString : 0);
        }, 0);
      const more = acts(there) + flat(there) - acts(back) - flat(back);
      expect(there.cost.fingers - back.cost.fingers).toBeCloseTo(more, 9);
    }),
    { seed: SEED, numRuns: 400 },
  );
});

const MIRRORED = {
  stays: 'stays',
  slides: 'slides',
  rolls: 'rolls',
  moves: 'moves',
  lands: 'lifts',
  lifts: 'lands',
} as const;

test('the same shapes on a longer neck cost no less', () => {
  fc.assert(
    fc.property(someChange, ({ on, from, to }) => {
      fc.pre(from !== undefined && to !== undefined);
      const longer = { ...on, scaleLengthMm: on.scaleLengthMm * 1.3 };
      const here = changeBetween(on, from, to).cost.total;
      // At a fret strings are as far apart as before; along the neck every way grows.
      expect(changeBetween(longer, from, to).cost.total).toBeGreaterThanOrEqual(here - 1e-9);
    }),
    { seed: SEED, numRuns: 200 },
  );
});

const EIGHTH_AT_92 = 60 / 92 / 2;

/** The job's own two cases; limits: common practice, no source. */
test('nine frets in an eighth at 92 are too quick, an easy change in a quarter at 60 is easy', () => {
  const jump = judgeChange(change(HIGH_G, '0001:0001 0-0-0-10:0001'), { seconds: EIGHTH_AT_92 });
  expect(jump.verdict).toBe('too-quick');
  expect(tellSpeed(jump)).toBe(
    'This change takes a practised hand about 0.41 s, and there are only 0.33 s: slow down, or take a shape that lies nearer.',
  );
  for (const easy of ['0003:0003 0212:0213', '0003:0003 2010:2010', '2000:2000 2010:2010', '2010:2010 0232:0132']) {
    const judged = judgeChange(change(HIGH_G, easy), { seconds: 1 });
    expect(judged.verdict).toBe('easy');
    expect(tellSpeed(judged)).toBeUndefined();
  }
  expect(judgeChange(change(HIGH_G, '2010:2010 4442:2341'), { seconds: 0.6 }).verdict).toBe('quick');
});

/** Fitts's law in MacKenzie's form, once more by hand: 0.05 s and 0.1 s a bit; the fret space is what a slide must hit. */
test('the time of a slide is that of one aimed movement', () => {
  const wireMm = (fret: number) => 432 * (1 - 2 ** (-fret / 12));
  const bits = Math.log2((wireMm(10) - wireMm(1)) / (wireMm(10) - wireMm(9)) + 1);
  expect(neededSecondsFor(change(HIGH_G, '0001:0001 0-0-0-10:0001'))).toBeCloseTo(0.05 + 0.1 * bits, 9);
});

test('a longer way or less time is never easier', () => {
  const ORDER = ['easy', 'quick', 'too-quick'];
  const rank = (on: Change, seconds: number) => ORDER.indexOf(judgeChange(on, { seconds }).verdict);
  fc.assert(
    fc.property(
      someChange,
      fc.double({ min: 0, max: 3, noNaN: true }),
      fc.double({ min: 1, max: 4, noNaN: true }),
      ({ on, from, to }, seconds, times) => {
        fc.pre(from !== undefined && to !== undefined);
        const here = changeBetween(on, from, to);
        const farther: Change = {
          ...here,
          moves: here.moves.map((move) =>
            move.kind === 'stays' ? move : { ...move, distanceMm: move.distanceMm * times },
          ),
        };
        expect(neededSecondsFor(farther)).toBeGreaterThanOrEqual(neededSecondsFor(here));
        expect(rank(farther, seconds)).toBeGreaterThanOrEqual(rank(here, seconds));
        expect(rank(here, seconds / times)).toBeGreaterThanOrEqual(rank(here, seconds));
      },
    ),
    { seed: SEED, numRuns: 300 },
  );
});
