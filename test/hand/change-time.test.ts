import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Change } from '../../shared/hand/change.ts';
import { changeBetween } from '../../shared/hand/change-between.ts';
import { hurryOf, judgeChange, neededSecondsFor } from '../../shared/hand/change-speed.ts';
import type { ChangeTime, StringSpare } from '../../shared/hand/change-time.ts';
import { difficultyOfChange } from '../../shared/hand/difficulty.ts';
import { fingeringsOf } from '../../shared/hand/fingering-search.ts';
import { fingerSequence } from '../../shared/hand/sequence-fingering.ts';
import { tellTightest } from '../../shared/hand/tell-change.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { BARITONE, HIGH_G, instrument, shape } from '../neck/playing.ts';
import { SEED } from '../theory/reading.ts';
import { GUITAR_CHART } from '../voicing/guitar-chart.ts';
import { chordsOf, holding } from './sequences.ts';

const GUITAR = instrument('guitar');

/** `0013:0013 0212:0213` on an instrument. */
function change(on: Instrument, written: string): Change {
  const [from, to] = written.split(' ').map((chord) => holding(on, ...(chord.split(':') as [string, string])));
  if (from === undefined || to === undefined) throw new Error('A change has two sides.');
  return changeBetween(on, from, to);
}

/** `0.2/0.5 0/0`: what each string gives before and after, in chart order. */
function spares(written: string): readonly StringSpare[] {
  return written.split(' ').map((string) => {
    const [before = 0, after = 0] = string.split('/').map(Number);
    return { before, after };
  });
}

/** `0.31 of 0.60 s: finger 1 to string 2` */
function judged(on: Instrument, written: string, seconds: number, strings?: string): string {
  const time = { seconds, ...(strings === undefined ? {} : { strings: spares(strings) }) };
  const { neededSeconds, seconds: given, tightest } = judgeChange(change(on, written), time);
  const who = tightest === undefined ? 'nothing' : tellTightest(tightest, on.openStrings.length);
  return `${neededSeconds.toFixed(2)} of ${given.toFixed(2)} s: ${who}`;
}

const hurry = (on: Change, time: ChangeTime) => {
  const { neededSeconds, seconds } = judgeChange(on, time);
  return hurryOf(neededSeconds, seconds);
};

const someFingering = fc
  .tuple(
    fc.oneof(
      fc.constantFrom(...GUITAR_CHART.flatMap(([, ...frets]) => frets.map((one) => shape(one)))),
      fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 6, maxLength: 6 }),
    ),
    fc.nat(),
  )
  .map(([frets, pick]) => {
    const all = fingeringsOf(GUITAR, frets, 'large');
    return all[pick % all.length];
  });
const someChange = fc.tuple(someFingering, someFingering);
const someSeconds = fc.double({ min: 0.05, max: 2, noNaN: true });
const someSpare = fc.constantFrom(0, 0.1, 0.25, 0.5, 1.5);
const someStrings = fc.array(fc.record({ before: someSpare, after: someSpare }), { minLength: 6, maxLength: 6 });

test('where all strings have the same time, the longest move of the whole hand decides', () => {
  let compared = 0;
  fc.assert(
    fc.property(someChange, someSeconds, ([from, to], seconds) => {
      fc.pre(from !== undefined && to !== undefined);
      compared += 1;
      const here = changeBetween(GUITAR, from, to);
      const whole = judgeChange(here, { seconds });
      expect(whole.neededSeconds).toBeCloseTo(neededSecondsFor(here), 12);
      expect(whole.seconds).toBe(seconds);
      const share = neededSecondsFor(here) / seconds;
      expect(whole.verdict).toBe(share <= 0.4 ? 'easy' : share <= 1 ? 'quick' : 'too-quick');
      expect(judgeChange(here, { seconds, strings: spares('0/0 0/0 0/0 0/0 0/0 0/0') })).toEqual(whole);
    }),
    { seed: SEED, numRuns: 300 },
  );
  expect(compared).toBe(300);
});

// Common practice, no source: it is easier to change in picking, string by string, than in strums at the same moments.
test('picked string by string a change is never harder than strummed; more time for one string never makes it harder', () => {
  let easier = 0;
  fc.assert(
    fc.property(
      someChange,
      someSeconds,
      someStrings,
      fc.nat({ max: 5 }),
      fc.constantFrom<keyof StringSpare>('before', 'after'),
      someSpare,
      ([from, to], seconds, strings, at, side, more) => {
        fc.pre(from !== undefined && to !== undefined);
        const here = changeBetween(GUITAR, from, to);
        const picked = hurry(here, { seconds, strings });
        const strummed = hurry(here, { seconds });
        easier += Number(picked < strummed - 1e-9);
        expect(picked).toBeLessThanOrEqual(strummed + 1e-9);
        const looser = strings.map((one, index) => (index === at ? { ...one, [side]: one[side] + more } : one));
        expect(hurry(here, { seconds, strings: looser })).toBeLessThanOrEqual(picked + 1e-9);
        const points = (time: ChangeTime) => difficultyOfChange(here, judgeChange(here, time)).total;
        expect(points({ seconds, strings })).toBeLessThanOrEqual(points({ seconds }) + 1e-9);
        expect(hurry(here, { seconds: seconds / 2, strings })).toBeGreaterThanOrEqual(picked - 1e-9);
      },
    ),
    { seed: SEED, numRuns: 500 },
  );
  expect(easier).toBeGreaterThan(100);
});

test('the whole of it faster is harder by just as much', () => {
  fc.assert(
    fc.property(someChange, someSeconds, someStrings, ([from, to], seconds, strings) => {
      fc.pre(from !== undefined && to !== undefined);
      const here = changeBetween(GUITAR, from, to);
      const twice = {
        seconds: seconds / 2,
        strings: strings.map(({ before, after }) => ({ before: before / 2, after: after / 2 })),
      };
      expect(hurry(here, twice)).toBeCloseTo(2 * hurry(here, { seconds, strings }), 9);
    }),
    { seed: SEED, numRuns: 200 },
  );
});

// Each time is added up by hand from what the strings give; who moves is seen in the shapes.
test.each([
  [
    'a finger that moves: its old string before, its new one after',
    '0002:0002 0200:0200',
    '9/9 9/0.2 9/9 0.3/9',
    '1.00 s: finger 2 from string 1 to string 3',
    0.5,
  ],
  [
    'one from the air: once its string has sounded',
    '0000:0000 0003:0003',
    '9/9 9/9 9/9 0.3/0.1',
    '0.90 s: finger 3 to string 1',
    0.5,
  ],
  [
    'one that lifts: before its string sounds anew',
    '0003:0003 0000:0000',
    '9/9 9/9 9/9 0.3/0.1',
    '0.90 s: finger 3 to leave string 1',
    0.5,
  ],
  ['one that slides', '0003:0003 0002:0003', '9/9 9/9 9/9 0.3/0.1', '0.90 s: finger 3 along string 1', 0.5],
  [
    'a barre leaves with its last string',
    '2222:1111 0002:0001',
    '0.4/9 0.3/9 0.2/9 0.1/0.5',
    '1.10 s: finger 1 on string 1',
    0.5,
  ],
  [
    'a barre stands with its first',
    '0002:0001 2222:1111',
    '9/0.4 9/0.3 9/0.2 0.1/0.5',
    '0.80 s: finger 1 on strings 4 to 1',
    0.5,
  ],
])('%s', (_name, written, strings, expected, seconds) => {
  expect(judged(HIGH_G, written, seconds, strings)).toContain(`of ${expected}`);
});

test('a string that another finger stops higher up does not hang on the barre', () => {
  // Finger 1 lies over strings 4 to 1, finger 3 stops string 1: that only its string comes at once says nothing of the barre.
  expect(judged(HIGH_G, '2222:1111 0000:0000', 0.5, '1/1 1/1 1/1 0/0')).toContain('of 0.50 s');
  expect(judged(HIGH_G, '2225:1114 0000:0000', 0.1, '9/9 9/9 9/9 0/0')).toContain(
    'of 0.10 s: finger 4 to leave string 1',
  );
  expect(judged(HIGH_G, '0000:0000 2225:1114', 0.1, '9/9 9/9 9/9 0/0')).toContain('of 0.10 s: finger 4 to string 1');
});

test('fingers that stand later cost the first no time, where the hand stays', () => {
  const written = '0000:0000 2220:1230';
  // By hand: three fingers fall 12 mm and more at once, each further one 0.04 s; the first of them alone needs none of that.
  const [together] = judged(HIGH_G, written, 0.3).split(' ').map(Number);
  const [first] = judged(HIGH_G, written, 0.3, '9/9 9/0 9/9 9/9').split(' ').map(Number);
  expect(together).toBeGreaterThan((first ?? 0) + 0.07);
});

test('a jump is made by the whole hand, whatever strings are done with', () => {
  const jump = change(HIGH_G, '0001:0001 0-0-0-10:0001');
  const whole = judgeChange(jump, { seconds: 0.33 });
  expect(judgeChange(jump, { seconds: 0.33, strings: spares('1/0 1/0 1/0 1/0') })).toEqual(whole);
  expect(whole.verdict).toBe('too-quick');
  // One fret is no jump: the hand leans over, and the fingers go as they can.
  const lean = judgeChange(change(HIGH_G, '0020:0010 0030:0010'), { seconds: 0.1, strings: spares('0/0 0/0 1/1 0/0') });
  expect(lean.verdict).toBe('easy');
});

test('past a chord that nobody holds, strings are free as the chord before says and needed as the one passed over says', () => {
  const strings = ['0.4/9 0.3/9 0.2/9 0.1/9', '9/0.5 9/0.6 9/0.7 9/0.8'].map(spares);
  const chords = chordsOf('0003 1-0-0-7 2010', 0.25).map((chord, at) => {
    const own = strings[at];
    return own === undefined ? chord : { ...chord, strings: own };
  });
  const { changes } = fingerSequence(BARITONE, chords, 'small');
  const [past] = changes;
  expect(past).toMatchObject({ from: 0, to: 2 });
  expect(past?.speed).toEqual(
    past && judgeChange(past.change, { seconds: 0.5, strings: spares('0.4/0.5 0.3/0.6 0.2/0.7 0.1/0.8') }),
  );
});
