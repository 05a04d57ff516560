import { expect, test } from 'vitest';
import { difficultyOfShape } from '../../shared/hand/difficulty.ts';
import { fingeringsOf } from '../../shared/hand/fingering-search.ts';
import { judgeReach, measureReach } from '../../shared/hand/reach.ts';
import { tellFingering } from '../../shared/hand/tell-fingering.ts';
import { BARITONE, HIGH_G, instrument, shape } from '../neck/playing.ts';
import { GUITAR_CHART } from '../voicing/guitar-chart.ts';
import { USUAL_CHART } from '../voicing/usual-chart.ts';
import { faultsOf, judged, printFingers, waysToHold } from './fingers.ts';

const GUITAR = instrument('guitar');

// Where nothing else is said: what players and teachers do, common practice, no source.

test.each(['3331', '2341', '4441'])('E as 4-4-4-2 is held with %s', (fingers) => {
  expect(waysToHold(HIGH_G, '4442')).toContain(fingers);
  expect(faultsOf(HIGH_G, '4442', fingers)).toEqual([]);
});

test('one barre at fret 4 is no way to hold 4-4-4-2: it would sound fret 4 on string 1', () => {
  expect(waysToHold(HIGH_G, '4442')).not.toContain('1111');
  expect(faultsOf(HIGH_G, '4442', '1111')).toEqual(['fingers.two-frets']);
  // The same by the general rule: no string under a finger laid flat is stopped lower, or open.
  expect(faultsOf(HIGH_G, '4424', '2212')).toEqual(['fingers.barre']);
  expect(faultsOf(HIGH_G, '4404', '1101')).toEqual(['fingers.barre']);
});

test('D as 2-2-2-0 is held with three tips, with two fingers, or with one that leaves string 1 free', () => {
  const ways = waysToHold(HIGH_G, '2220');
  for (const fingers of ['1230', '2340', '1110', '2220', '1120', '1220']) expect(ways).toContain(fingers);
  const flat = fingeringsOf(HIGH_G, shape('2220'), 'medium').find((way) => printFingers(way) === '1110');
  expect(flat?.presses).toEqual([{ finger: 1, fret: 2, from: 0, to: 2, sounding: 3 }]);
  expect(flat?.reasons.map(({ kind }) => kind)).toEqual(['half-barre', 'lifted-barre']);
});

test('three tips in one fret are crowded for a large hand on a soprano, and not for a small one', () => {
  const crowded = (hand: 'small' | 'large') =>
    judged(instrument('soprano'), '2220', '1230', hand).fingering?.reasons.some(
      (reason) => reason.kind === 'side-by-side' && reason.crowded,
    );
  expect(crowded('small')).toBe(false);
  expect(crowded('large')).toBe(true);
});

test('B flat as 3-2-1-1 comes first with the index finger across strings 2 and 1', () => {
  const [first] = fingeringsOf(HIGH_G, shape('3211'), 'medium');
  expect(first && printFingers(first)).toBe('3211');
  expect(first?.presses[0]).toEqual({ finger: 1, fret: 1, from: 2, to: 3, sounding: 2 });
  expect(first && tellFingering(first, 'medium')).toContain('The index finger lies across strings 2 and 1 at fret 1.');
  expect(waysToHold(HIGH_G, '321x')[0]).toBe('3210');
  expect(waysToHold(HIGH_G, '3211')).toContain('4312');
});

test.each(['3111', '2111'])('B minor as 4-2-2-2 is held with %s', (fingers) => {
  expect(waysToHold(HIGH_G, '4222')).toContain(fingers);
  expect(faultsOf(HIGH_G, '4222', fingers)).toEqual([]);
});

test.each(['1324', '1213'])('a diminished seventh as 2-3-2-3 is held with %s', (fingers) => {
  expect(waysToHold(HIGH_G, '2323').slice(0, 3)).toContain(fingers);
  expect(faultsOf(HIGH_G, '2323', fingers)).toEqual([]);
});

test('no finger lies flat across an open string: 2-0-2-0 takes two', () => {
  const ways = waysToHold(HIGH_G, '2020');
  expect(ways.slice(0, 2)).toEqual(['1020', '2030']);
  expect(fingeringsOf(HIGH_G, shape('2020'), 'medium').every(({ presses }) => presses.length === 2)).toBe(true);
  expect(faultsOf(HIGH_G, '2020', '1010')).toEqual(['fingers.barre']);
});

test('two fingers flat at once: 5-5-8-8 is valid and hard', () => {
  expect(waysToHold(HIGH_G, '7565')[0]).toBe('3121');
  const { fingering, faults } = judged(HIGH_G, '5588', '1144');
  expect(faults).toEqual([]);
  expect(fingering?.verdict).not.toBe('out-of-reach');
  const easiest = fingeringsOf(HIGH_G, shape('5588'), 'medium')[0];
  expect(fingering?.cost.total).toBeGreaterThan((easiest?.cost.total ?? 0) + 2);
  expect(fingering && tellFingering(fingering, 'medium')).toContain('Two fingers lie flat at once, which is hard.');
});

// Worked out by players for their own scale lengths. Unit: mm.
test.each([
  ['soprano scale 345 mm', 49],
  ['concert scale 380 mm', 54],
  ['tenor scale 430 mm', 61],
  ['baritone scale 485 mm', 69],
])('%s: index at fret 2 and little finger at fret 5 are %i mm apart, whatever the number of frets', (name, mm) => {
  const on = instrument(name);
  const { fingering } = judged(on, '2005', '1004');
  expect(Math.round(fingering?.widest?.reachMm ?? 0)).toBe(mm);
  expect(Math.round(measureReach(on, shape('2005'))?.reachMm ?? 0)).toBe(mm);
});

test('C as 0-0-0-3 takes any finger, the ring finger first; nothing corrects the teacher', () => {
  expect(waysToHold(HIGH_G, '0003')).toEqual(['0003', '0002', '0001', '0004']);
  for (const finger of ['1', '2', '3', '4']) expect(faultsOf(HIGH_G, '0003', `000${finger}`)).toEqual([]);
});

// First shapes of the chords-db 0.5.1 ukulele file that every beginner's chart has; G also in a maker's beginner page (Mahalo Ukuleles).
test.each([
  ['0232', '0132'],
  ['0212', '0213'],
  ['2010', '2010'],
  ['2000', '2000'],
  ['0001', '0001'],
  ['0002', '0002'],
  ['2210', '2310'],
  ['0432', '0321'],
  ['1402', '1402'],
  ['2120', '2130'],
  ['1202', '1203'],
  ['3121', '3121'],
  ['5343', '3121'],
  ['4322', '3211'],
  ['2223', '1112'],
])('%s is held with %s', (frets, fingers) => expect(waysToHold(HIGH_G, frets)[0]).toBe(fingers));

test.each([
  ['x32010', '032010'],
  ['133211', '134211'],
  ['x02220', '001230'],
  ['022100', '023100'],
  ['xx0232', '000132'],
  ['320003', '210003'],
])('on a guitar %s is held with %s', (frets, fingers) =>
  expect(waysToHold(GUITAR, frets).slice(0, 2)).toContain(fingers),
);

// Common practice, no source: a finger laid flat for two strings, over one that is stopped higher, is more than one more finger.
test.each([
  [GUITAR, 'xx0232', '000132'],
  [GUITAR, '000232', '000132'],
  [GUITAR, 'x2343x', '012430'],
  [HIGH_G, '2323', '1324'],
  [HIGH_G, '0232', '0132'],
  [HIGH_G, '0121', '0132'],
] as const)('tips come before a half barre that bridges a string', (on, frets, fingers) => {
  expect(waysToHold(on, frets)[0]).toBe(fingers);
});

test('what comes first is not the harder one', () => {
  for (const [on, charts] of [
    [HIGH_G, USUAL_CHART.map(([frets]) => frets)],
    [GUITAR, GUITAR_CHART.flatMap(([, ...frets]) => frets)],
  ] as const) {
    for (const frets of charts) {
      const ways = fingeringsOf(on, shape(frets), 'medium').filter(({ verdict }) => verdict !== 'out-of-reach');
      const points = ways.map((way) => difficultyOfShape(way).total);
      // Two estimates may differ a little: up to a third of a point, where a word of level is two wide.
      expect(points[0], frets).toBeLessThan(Math.min(...points) + 0.3);
    }
  }
});

test('four to eight strings, with a capo: the same shape, narrower frets', () => {
  for (const strings of [4, 5, 6, 7, 8]) {
    const on = instrument(`tuned ${new Array<string>(strings).fill('E3').join(' ')} scale 650 mm`);
    const held = ['2', ...new Array<string>(strings - 2).fill('0'), '3'].join('-');
    const [open] = fingeringsOf(on, shape(held), 'medium');
    const [above] = fingeringsOf({ ...on, capoFret: 5 }, shape(held), 'medium');
    expect(open?.fingers).toEqual([1, ...new Array<undefined>(strings - 2).fill(undefined), 2]);
    expect(above?.fingers).toEqual(open?.fingers);
    expect(above?.widest?.alongMm).toBeLessThan(open?.widest?.alongMm ?? 0);
    expect(waysToHold(on, new Array<string>(strings).fill('3').join('-'))).toContain('1'.repeat(strings));
  }
});

test('the thumb takes part when it is wished for, on the highest-numbered string alone', () => {
  expect(waysToHold(GUITAR, '200232').some((way) => way.includes('T'))).toBe(false);
  const ways = waysToHold(GUITAR, '200232', 'medium', { thumb: true });
  expect(ways).toContain('T00132');
  expect(ways.filter((way) => way.includes('T')).every((way) => way.lastIndexOf('T') === 0)).toBe(true);
  expect(faultsOf(GUITAR, '200232', 'T00132')).toEqual([]);
  expect(faultsOf(GUITAR, '220000', 'TT0000')).toEqual(['fingers.thumb']);
});

test('silent strings are told: who touches them, and which nobody touches', () => {
  const [c] = fingeringsOf(GUITAR, shape('x32010'), 'medium');
  expect(c?.silent).toEqual([{ stringIndex: 0, inner: false, by: 3 }]);
  const [inner] = fingeringsOf(GUITAR, shape('3-x-0-0-0-3'), 'medium');
  expect(inner?.silent).toEqual([{ stringIndex: 1, inner: true, by: 2 }]);
  const [untouched] = fingeringsOf(GUITAR, shape('0-x-0-0-0-3'), 'medium');
  expect(untouched?.silent).toEqual([{ stringIndex: 1, inner: true }]);
  expect(untouched && tellFingering(untouched, 'medium')).toContain('Nothing touches string 5');
});

test('no finger is needed for open strings, and five fingers are more than a hand has', () => {
  const [open] = fingeringsOf(HIGH_G, shape('0000'), 'medium');
  expect(open).toMatchObject({ presses: [], verdict: 'comfortable', cost: { total: 0 } });
  expect(open && tellFingering(open, 'medium')).toBe('All strings ring open: no finger is needed.');
  expect(waysToHold(GUITAR, '1-2-3-4-5-0')).toEqual([]);
  // Three of four fingers in order, and six where two neighbouring ones change places.
  expect(waysToHold(GUITAR, '1-0-1-0-1-0')).toHaveLength(4 + 6);
});

test('a stretch is told with its fingers, its millimetres, its limit and the caution', () => {
  const [first] = fingeringsOf(BARITONE, shape('1-0-0-5'), 'large');
  expect(first && tellFingering(first, 'large')).toMatch(
    /^Index and little finger are 99 mm apart; a large hand has \d+ mm at ease and about \d+ mm at most\. .*Warm up first/,
  );
  const [beyond] = fingeringsOf(BARITONE, shape('1-0-0-5'), 'small');
  expect(beyond?.verdict).toBe('out-of-reach');
  expect(beyond && tellFingering(beyond, 'small')).toContain('out of reach: a small hand has about');
});

test('where the outer fingers decide, the measure without fingers says the same', () => {
  for (const hand of ['child', 'small', 'medium', 'large'] as const) {
    for (const fret of [2, 3, 4, 5, 6]) {
      const { fingering } = judged(BARITONE, `1-0-0-${fret}`, '1004', hand);
      expect(fingering?.verdict).toBe(judgeReach(BARITONE, [1, 0, 0, fret], hand)?.verdict);
    }
  }
});
