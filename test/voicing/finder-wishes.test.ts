import { expect, test } from 'vitest';
import { soundingMidi } from '../../shared/neck/pitches.ts';
import type { Shape } from '../../shared/neck/shape.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { printNote } from '../../shared/theory/note.ts';
import { printRole } from '../../shared/theory/role.ts';
import type { ShapeWishes, Voicing } from '../../shared/voicing/shapes.ts';
import { shapesFor } from '../../shared/voicing/shapes.ts';
import { BARITONE, HIGH_G, instrument, shape } from '../neck/playing.ts';
import { chord } from '../theory/reading.ts';

const SHORT_GUITAR = instrument('guitar frets 9');
const ALL = { max: Number.POSITIVE_INFINITY };

function soundsIn(on: typeof HIGH_G, frets: Shape): readonly number[] {
  return soundingMidi(on, frets).flatMap((midi) => midi ?? []);
}

/** What a wish lets through, told once more over the shapes that are found without it. Strings are counted from string 1. */
const WISHES: readonly (readonly [string, ShapeWishes, (frets: Shape, on: typeof HIGH_G) => boolean])[] = [
  [
    'within frets 3 to 6',
    { within: [3, 6] },
    (frets) => frets.every((fret) => fret === 'muted' || fret === 0 || (fret >= 3 && fret <= 6)),
  ],
  ['string 2 rings open', { ringOpen: [2] }, (frets) => frets.at(-2) === 0],
  ['strings 1 and 3 sound', { sounding: [1, 3] }, (frets) => frets.at(-1) !== 'muted' && frets.at(-3) !== 'muted'],
  ['string 4 is silent', { muted: [4] }, (frets) => frets.at(-4) === 'muted'],
  ['a string that is not there rings', { ringOpen: [9] }, () => false],
  ['a string that is not there sounds', { sounding: [9] }, () => false],
  ['E on top', { top: { letter: 'E', accidental: 0 } }, (frets, on) => Math.max(...soundsIn(on, frets)) % 12 === 4],
  [
    'C5 on top',
    { top: { letter: 'C', accidental: 0, octave: 5 } },
    (frets, on) => Math.max(...soundsIn(on, frets)) === 72,
  ],
  ['first inversion', { bass: { degree: 3, alter: 0 } }, (frets, on) => Math.min(...soundsIn(on, frets)) % 12 === 4],
  [
    'nothing left out',
    { mayOmit: [] },
    (frets, on) => new Set(soundsIn(on, frets).map((midi) => midi % 12)).size === 4,
  ],
];

test.each(WISHES)('a wish is granted by all that are found, and by nothing else: %s', (_name, wish, grants) => {
  for (const on of [HIGH_G, BARITONE, SHORT_GUITAR]) {
    const all = shapesFor(chord('C7'), on, ALL);
    const granted = all.filter((voicing) => grants(voicing.shape, on));
    const wished = shapesFor(chord('C7'), on, { ...ALL, ...wish });
    // Which of them the hand puts in order depends on how many there are to choose from: the set is exact, the order its own.
    expect([...wished].sort(byShape)).toEqual([...granted].sort(byShape));
    expect(shapesFor(chord('C7'), on, { max: 5, ...wish })).toEqual(wished.slice(0, 5));
  }
});

function byShape(one: Voicing, other: Voicing): number {
  return printShape(one.shape) < printShape(other.shape) ? -1 : 1;
}

test('wishes are granted together, wherever the shapes stand in the whole order', () => {
  const wishes: ShapeWishes = { within: [8, 12], sounding: [1, 2, 3, 4], bass: { degree: 3, alter: -1 }, mayOmit: [] };
  const found = shapesFor(chord('Fm7'), HIGH_G, { ...wishes, max: 3 });
  const all = shapesFor(chord('Fm7'), HIGH_G, ALL).map((voicing) => printShape(voicing.shape));
  // On G4 C4 E4 A4 it sounds E flat, A flat, C and F.
  expect(found.map((voicing) => printShape(voicing.shape))).toContain('8-8-8-8');
  for (const voicing of found) {
    expect(all).toContain(printShape(voicing.shape));
    expect(printNote(voicing.bass)).toBe('Ab');
    expect(voicing.omits).toEqual([]);
  }
});

test('the tones that may be left out are those that are named, and no others', () => {
  const third = { degree: 3, alter: 0 };
  const omits = (voicings: readonly Voicing[]) =>
    new Set(voicings.map((voicing) => voicing.omits.map((role) => printRole(role, 'letters')).join()));
  expect(omits(shapesFor(chord('C7'), HIGH_G, ALL))).toEqual(new Set(['', '1', '5']));
  expect(omits(shapesFor(chord('C7'), HIGH_G, { ...ALL, mayOmit: [third] }))).toEqual(new Set(['', '3']));
});

test('a tone beyond the chord sounds where it is wished, is told, and comes behind what has none', () => {
  const ninth = { degree: 9, alter: 0 };
  const found = shapesFor(chord('C'), HIGH_G, { ...ALL, mayAdd: [ninth] });
  const plain = shapesFor(chord('C'), HIGH_G, ALL).map(({ shape: frets }) => printShape(frets));
  const added = found.filter(({ adds }) => adds.length > 0);
  expect(found.filter(({ adds }) => adds.length === 0).map(({ shape: frets }) => printShape(frets))).toEqual(plain);
  // G, D, E and C.
  expect(added.map(({ shape: frets }) => printShape(frets))).toContain('0-2-0-3');
  for (const { adds, shape: frets } of added) {
    expect(adds).toEqual([ninth]);
    expect(soundsIn(HIGH_G, frets).some((midi) => midi % 12 === 2)).toBe(true);
  }
  expect(found[0]?.adds).toEqual([]);
});

test('near a shape the hand stays where it is', () => {
  const lowest = ({ shape: frets }: Voicing) =>
    Math.min(...frets.filter((fret): fret is number => fret !== 'muted' && fret > 0));
  for (const [name, from] of [
    ['F', '7-5-5-5'],
    ['G7', '10-9-8-8'],
    ['Dm', '5-5-5-8'],
  ] as const) {
    const [best] = shapesFor(chord(name), HIGH_G, { near: shape(from), max: 1 });
    const stopped = shape(from).filter((fret): fret is number => fret !== 'muted');
    if (best === undefined) throw new Error(name);
    expect(Math.abs(lowest(best) - Math.min(...stopped)), `${name} ${printShape(best.shape)}`).toBeLessThanOrEqual(2);
  }
});
