import fc from 'fast-check';
import { expect, test } from 'vitest';
import { judgeReach } from '../../shared/hand/reach.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { soundingMidi } from '../../shared/neck/pitches.ts';
import type { Fret, Shape } from '../../shared/neck/shape.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { CHORD_KINDS } from '../../shared/theory/chord-kinds.ts';
import type { ChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { chordTones } from '../../shared/theory/chord-symbol.ts';
import { judgeFit } from '../../shared/voicing/fit.ts';
import type { ShapeWishes, Voicing } from '../../shared/voicing/shapes.ts';
import { shapesFor } from '../../shared/voicing/shapes.ts';
import { BARITONE, HIGH_G, instrument } from '../neck/playing.ts';
import { chord, SEED } from '../theory/reading.ts';
import { soundsOf } from './data-set.ts';
import { fingersNeeded, spanOf } from './holding.ts';

const GUITAR = instrument('guitar');
const SHORT_GUITAR = instrument('guitar frets 6');
const SEVEN = instrument('tuned B1 E2 A2 D3 G3 B3 E4 frets 5');
const EIGHT = instrument('tuned E2 A2 D3 G3 B3 E4 G4 B4 frets 5');
const ALL = { max: Number.POSITIVE_INFINITY };

function printed(voicings: readonly Voicing[]): readonly string[] {
  return voicings.map((voicing) => printShape(voicing.shape));
}

// The search against a few lines that try every fret on every string.
test.each<[string, Instrument]>([
  ['C', HIGH_G],
  ['Fmaj9', HIGH_G],
  ['C5', HIGH_G],
  ['Am7', BARITONE],
  ['G7#9', BARITONE],
  ['Bdim7', BARITONE],
  ['D/F#', BARITONE],
  ['Caug', instrument('mandolin, capo 2')],
  ['E7', instrument('tuned G4 D3 G3 B3 D4 frets 12')],
  ['C', SHORT_GUITAR],
  ['G13', SHORT_GUITAR],
  ['A5', SHORT_GUITAR],
  ['Dm7/C', SHORT_GUITAR],
  ['F', SEVEN],
  ['B7', SEVEN],
  ['Em', EIGHT],
])('every shape of %s is found, and nothing else', (name, on) => {
  const symbol = chord(name);
  expect([...printed(shapesFor(symbol, on, ALL))].sort()).toEqual(everyShape(symbol, on).map(printShape).sort());
});

function everyShape(symbol: ChordSymbol, on: Instrument): readonly Shape[] {
  const sounds = soundsOf(symbol);
  const neck = Array.from({ length: on.frets - on.capoFret + 1 }, (_, fret) => fret);
  let shapes: readonly (readonly Fret[])[] = [[]];
  for (const at of on.openStrings.keys()) {
    const own = neck.filter((fret) => sounds.has((soundingMidi(on, [...Array(at).fill('muted'), fret])[at] ?? 0) % 12));
    shapes = shapes.flatMap((begun) => [...own, 'muted' as const].map((fret) => [...begun, fret])).filter(withinFive);
  }
  const fewest = chordTones(symbol).length > 2 ? 3 : 2;
  return shapes.filter((shape) => {
    if (shape.filter((fret) => fret !== 'muted').length < fewest || fingersNeeded(shape) > 4) return false;
    const { verdict, writtenBass } = judgeFit(on, shape, symbol);
    return (verdict === 'fits' || verdict === 'fits-incomplete') && writtenBass !== 'missing';
  });
}

function withinFive(shape: Shape): boolean {
  return spanOf(shape) <= 4;
}

const chords = fc
  .tuple(
    fc.constantFrom('C', 'C#', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'),
    fc.constantFrom(...CHORD_KINDS.map((facts) => facts.suffix)),
  )
  .map(([root, suffix]) => chord(root + suffix));

// Most of the neck is never walked when few shapes are wanted: what is passed over must not be among the best.
test('the few that are asked for are the first of all that there are', () => {
  const tunings = fc.constantFrom(HIGH_G, BARITONE, SHORT_GUITAR, SEVEN, instrument('guitar, capo 7'));
  const near = fc.constantFrom<ShapeWishes>(
    {},
    { near: [5, 5, 5, 8] },
    { near: [0, 2, 2, 1, 0, 0] },
    { near: [3, 2, 0, 0] },
  );
  fc.assert(
    fc.property(chords, tunings, near, fc.constantFrom(1, 2, 7, 24, 60), (symbol, on, wishes, max) => {
      const all = printed(shapesFor(symbol, on, { ...wishes, ...ALL }));
      expect(printed(shapesFor(symbol, on, { ...wishes, max }))).toEqual(all.slice(0, max));
    }),
    { seed: SEED, numRuns: 60 },
  );
});

test('a shape over five frets is found', () => {
  // On G4 C4 E4 A4 it sounds A, F sharp, A and D.
  expect(printed(shapesFor(chord('D'), HIGH_G, ALL))).toContain('2-6-5-5');
});

test('on four strings a shape with a silent string comes behind the whole ones that are worth playing', () => {
  const shapes = shapesFor(chord('Bb'), HIGH_G, ALL);
  // On G4 C4 E4 A4 it sounds B flat, D and F.
  expect(printed(shapes)).toContain('3-2-1-x');
  const firstMuted = shapes.findIndex(({ shape }) => shape.includes('muted'));
  const behind = shapes.slice(firstMuted).filter(({ shape }) => !shape.includes('muted'));
  for (const { shape, omits } of behind) {
    const high = Math.max(...shape.map((fret) => (fret === 'muted' ? 0 : fret)));
    const atEase = judgeReach(HIGH_G, shape, 'medium')?.verdict === 'comfortable';
    expect(atEase && omits.length === 0 && high <= 12 && !shape.includes(0), printShape(shape)).toBe(false);
  }
});

test('shapes beyond the reach of the hand come behind all that are within it', () => {
  for (const name of ['C', 'G7', 'Dmaj9', 'Bbm6']) {
    const verdicts = shapesFor(chord(name), GUITAR, { max: 400 }).map(
      ({ shape }) => judgeReach(GUITAR, shape, 'medium')?.verdict,
    );
    const firstBeyond = verdicts.indexOf('out-of-reach');
    expect(firstBeyond === -1 || firstBeyond > 100, name).toBe(true);
  }
});
