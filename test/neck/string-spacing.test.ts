import { expect, test } from 'vitest';
import { neckAboveCapo } from '../../shared/neck/capo.ts';
import { fingertipMm, roomForTipsMm, staggerMm } from '../../shared/neck/fingertip.ts';
import { fretPositionMm } from '../../shared/neck/fret-positions.ts';
import { instrumentSuggestions, withCapo } from '../../shared/neck/instruments.ts';
import { stringPitchAtFretMm } from '../../shared/neck/string-spacing.ts';
import { HIGH_G, instrument } from './playing.ts';

// Source: "Understanding String Spacing on Classical Guitars": outer strings 38 to 44.5 mm apart at the nut, 53.3 to 58.4 at the bridge.
test('a guitar has the spacing that builders give', () => {
  const on = instrument('guitar');
  expect(5 * on.stringPitchMm).toBeGreaterThanOrEqual(38);
  expect(5 * on.stringPitchMm).toBeLessThanOrEqual(44.5);
  expect(5 * on.bridgePitchMm).toBeGreaterThanOrEqual(53.3);
  expect(5 * on.bridgePitchMm).toBeLessThanOrEqual(58.4);
});

test('strings are straight: at the nut as at the nut, at fret 12 half of the way to the bridge', () => {
  for (const { label } of instrumentSuggestions()) {
    const on = instrument(label);
    expect(stringPitchAtFretMm(on, 0)).toBe(on.stringPitchMm);
    expect(stringPitchAtFretMm(on, 12)).toBeCloseTo((on.stringPitchMm + on.bridgePitchMm) / 2, 9);
    expect(stringPitchAtFretMm(on, 24)).toBeCloseTo((on.stringPitchMm + 3 * on.bridgePitchMm) / 4, 9);
    expect(on.bridgePitchMm).toBeGreaterThan(on.stringPitchMm);
  }
});

test('a lesson that sets strings wider at the nut sets them wider at the bridge', () => {
  const wide = instrument('tenor ukulele spacing 11 mm');
  expect(wide.bridgePitchMm / wide.stringPitchMm).toBeCloseTo(HIGH_G.bridgePitchMm / HIGH_G.stringPitchMm, 9);
});

test('above a capo the spacing is what it was there', () => {
  const above = neckAboveCapo(withCapo(HIGH_G, 5));
  for (const fret of [0, 1, 7, 12]) {
    expect(stringPitchAtFretMm(above, fret)).toBeCloseTo(stringPitchAtFretMm(HIGH_G, fret + 5), 9);
  }
});

test('the tip presses behind the wire and inside its fret, in the middle where the fret is narrow', () => {
  for (const scaleMm of [346, 432, 650]) {
    for (let fret = 1; fret <= 24; fret += 1) {
      const [behind, wire] = [fretPositionMm(scaleMm, fret - 1), fretPositionMm(scaleMm, fret)];
      const tip = fingertipMm(scaleMm, fret);
      expect(tip).toBeLessThan(wire);
      expect(tip).toBeGreaterThanOrEqual((behind + wire) / 2 - 1e-9);
      expect(wire - tip).toBeCloseTo(Math.min(5, (wire - behind) / 2), 9);
    }
  }
});

test('tips narrower than the strings need no stagger, wider ones stand aslant; there is room for fewer up the neck', () => {
  expect(staggerMm(9, 9.4)).toBe(0);
  // A right triangle of 5, 12 and 13.
  expect(staggerMm(13, 12)).toBeCloseTo(5, 9);
  for (let fret = 1; fret < 24; fret += 1) {
    expect(roomForTipsMm(346, fret + 1)).toBeLessThan(roomForTipsMm(346, fret));
  }
});
