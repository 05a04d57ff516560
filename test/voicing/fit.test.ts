import { expect, test } from 'vitest';
import { printNote } from '../../shared/theory/note.ts';
import { printRole } from '../../shared/theory/role.ts';
import { judgeFit } from '../../shared/voicing/fit.ts';
import { BARITONE, HIGH_G, LOW_G, shape } from '../neck/playing.ts';
import { chord } from '../theory/reading.ts';
import { USUAL_CHART } from './usual-chart.ts';

function judged(name: string, frets: string, on = HIGH_G): string {
  const fit = judgeFit(on, shape(frets), chord(name));
  const foreign = fit.foreign.map((tone) => `+${printNote(tone.note)}`);
  const missing = fit.missing.map((role) => `-${printRole(role)}`);
  return [fit.verdict, ...foreign, ...missing].join(' ');
}

// What players write over shapes, and what a teacher would say. Strength: must, but for where mildness begins, which is should.
test.each([
  ['one shape, three right names', 'Cm6', '2333', 'fits'],
  ['one shape, three right names', 'Am7b5', '2333', 'fits'],
  ['one shape, three right names: a mild word about the root', 'F9', '2333', 'fits-incomplete -1'],
  ['D9 as 2423', 'D9', '2423', 'fits-incomplete -1'],
  ['D9 as 5420', 'D9', '5420', 'fits-incomplete -1'],
  ['the C9 that was meant', 'C9', '0201', 'fits-incomplete -1'],
  ['the C9 with its digits swapped', 'C9', '0210', 'does-not-fit +F +A -1 -3 -♭7'],
  ['plain G with an added A', 'G', '2232', 'fits-with-added +A'],
  ['the full plain G', 'G', '4232', 'fits'],
  ['D7 without a D', 'D7', '2020', 'fits-incomplete -1'],
  ['D7 complete', 'D7', '2223', 'fits'],
  ['C typed one digit wrong', 'C', '0001', 'does-not-fit +Bb'],
  ['C as it should be', 'C', '0003', 'fits'],
  ['F6 that is F(add9)', 'F6', '0550', 'does-not-fit +G -5 -6'],
  ['F(add9) without its fifth', 'F(add9)', '0550', 'fits-incomplete -5'],
  ['E with its G sharp', 'E', '1402', 'fits'],
  ['C minor is not C', 'C', '0333', 'does-not-fit +Eb -3'],
  ['a fifth alone is C5 and no C', 'C', '0-0-x-x', 'does-not-fit -3'],
  ['C6/9 needs its E', 'C6/9', '2233', 'does-not-fit -3'],
  ['an augmented fifth is never left out', 'Caug', 'x-0-0-x', 'does-not-fit -♯5'],
  ['a name that leaves out its fifth itself', 'C(no5)', 'x-0-0-x', 'fits'],
  ['everything muted', 'C', 'x-x-x-x', 'does-not-fit -1 -3 -5'],
])('%s: %s on %s', (_why, name, frets, expected) => expect(judged(name, frets)).toBe(expected));

test('the tuning decides: 2010 is C on a baritone and no F', () => {
  expect(judged('C', '2010', BARITONE)).toBe('fits');
  expect(judged('F', '2010', BARITONE)).toMatch(/^does-not-fit/);
});

test('a written bass that is not the lowest is told, and is no fault of the chord (must)', () => {
  const bass = (name: string, frets: string, on = HIGH_G) => {
    const fit = judgeFit(on, shape(frets), chord(name));
    return `${fit.verdict}, ${fit.writtenBass}`;
  };
  expect(bass('D/F#', '2220')).toBe('fits, elsewhere');
  expect(bass('D/F#', '2655')).toBe('fits, lowest');
  expect(bass('C/G', '0003', LOW_G)).toBe('fits, lowest');
  expect(bass('Am/G', '2000')).toBe('fits, missing');
  expect(bass('Am/G', '0000')).toBe('fits, elsewhere');
  expect(bass('D', '2220')).toBe('fits, none');
});

test.each(USUAL_CHART)('the usual chart fits its own names: %s, %s, %s', (frets, high, low) => {
  const expected = frets === '2020' ? 'fits-incomplete -1' : 'fits';
  expect(judged(high, frets)).toBe(expected);
  expect(judged(high, frets, LOW_G)).toBe(expected);
  expect(judged(low, frets, BARITONE)).toBe(expected);
});
