import fc from 'fast-check';
import { expect, test } from 'vitest';
import { measureReach } from '../../shared/hand/reach.ts';
import { lowestSounding, soundingMidi } from '../../shared/neck/pitches.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { CHORD_KINDS } from '../../shared/theory/chord-kinds.ts';
import { chordTones } from '../../shared/theory/chord-symbol.ts';
import { pitchClass, printNote } from '../../shared/theory/note.ts';
import { judgeFit } from '../../shared/voicing/fit.ts';
import { isPlayable } from '../../shared/voicing/playable.ts';
import { defaultShape, shapesFor } from '../../shared/voicing/shapes.ts';
import { BARITONE, HIGH_G, instrument, LOW_G, shape } from '../neck/playing.ts';
import { chord, SEED } from '../theory/reading.ts';
import { GUITAR_CHART, GUITAR_FURTHER_CHART } from './guitar-chart.ts';
import { USUAL_CHART } from './usual-chart.ts';

const GUITAR = instrument('guitar');
const ALL = { max: Number.POSITIVE_INFINITY };

function printed(name: string, on: typeof HIGH_G, max: number): readonly string[] {
  return shapesFor(chord(name), on, { max }).map((voicing) => printShape(voicing.shape));
}

test('the chart shape comes first for every chord of the beginners’ chart', () => {
  for (const [name, rows] of chartedNames(1)) {
    const shapes = rows.map(([frets]) => printShape(shape(frets)));
    expect(shapes, name).toContain(printed(name, HIGH_G, 1)[0]);
  }
});

/** On the longer neck of the baritone frets 1 to 4 are a stretch, and other shapes come before those that need it; and a bar of four. */
const BARITONE_DIFFERS: Readonly<Record<string, string>> = { Ab: '6-5-4-4', Am7: '5-5-5-5', Cmaj7: '5-5-0-0' };

test('the same frets on a baritone come first under their other names, save where they are a stretch there', () => {
  const differing: Record<string, string> = {};
  for (const [name, rows] of chartedNames(2)) {
    const shapes = rows.map(([frets]) => printShape(shape(frets)));
    const best = printed(name, BARITONE, 1)[0] ?? '';
    if (!shapes.includes(best)) differing[name] = best;
  }
  expect(differing).toEqual(BARITONE_DIFFERS);
});

/** The charted chords by their name in one of the two tunings. */
function chartedNames(column: 1 | 2): ReadonlyMap<string, readonly (typeof USUAL_CHART)[number][]> {
  const names = new Map<string, (typeof USUAL_CHART)[number][]>();
  for (const row of USUAL_CHART) names.set(row[column], [...(names.get(row[column]) ?? []), row]);
  return names;
}

/** Guitar chords for which another shape comes before the taught one: each is whole, and the hand can hold it. */
const GUITAR_DIFFERS: Readonly<Record<string, string>> = {
  Fmaj7: '1-3-2-2-1-1',
  Bm7b5: 'x-2-0-2-0-1',
  Edim7: '0-1-2-0-2-0',
};

test('on the guitar the shape that everybody learns comes first, save where as good a one is told', () => {
  const differing: Record<string, string> = {};
  for (const [name, ...taught] of GUITAR_CHART) {
    const best = printed(name, GUITAR, 1)[0] ?? '';
    if (!taught.some((frets) => printShape(shape(frets)) === best)) differing[name] = best;
  }
  expect(differing).toEqual(GUITAR_DIFFERS);
});

test('every shape of the guitar charts sounds its chord', () => {
  for (const [name, ...taught] of [...GUITAR_CHART, ...GUITAR_FURTHER_CHART]) {
    for (const frets of taught)
      expect(judgeFit(GUITAR, shape(frets), chord(name)).foreign, `${name} ${frets}`).toEqual([]);
  }
});

/** Of the further chart those of which no taught shape is among the first two, with what is there instead. */
const FURTHER_DIFFERS: Readonly<Record<string, readonly string[]>> = {
  Bbmaj7: ['x-1-0-2-3-1', 'x-1-3-2-3-x'],
  Bmaj7: ['x-2-1-3-0-2', 'x-2-4-3-4-x'],
  F6: ['1-0-0-2-1-1', '1-0-0-2-1-x'],
  Bsus4: ['x-2-4-4-0-0', '7-9-9-9-7-7'],
  C13: ['8-10-8-9-10-8', '8-10-8-9-10-x'],
  'C7#9': ['8-7-8-8-8-8', '8-7-8-8-8-x'],
  'F#m7b5': ['2-0-2-2-1-x', '2-0-2-2-1-0'],
};

test('of barres, jazz shapes, power chords and written basses on the guitar a taught one is first or second', () => {
  const differing: Record<string, readonly string[]> = {};
  for (const [name, ...taught] of GUITAR_FURTHER_CHART) {
    const best = printed(name, GUITAR, 2);
    if (!taught.some((frets) => best.includes(printShape(shape(frets))))) differing[name] = best;
  }
  expect(differing).toEqual(FURTHER_DIFFERS);
});

test('a written bass comes lowest in whatever can be held, before all else, where the strings are tuned in order', () => {
  for (const on of [GUITAR, LOW_G, BARITONE]) {
    for (const name of ['C/E', 'G/B', 'D/F#', 'Am/G', 'F/C']) {
      const written = name.slice(name.indexOf('/') + 1);
      const basses = shapesFor(chord(name), on)
        .filter((voicing) => isPlayable(on, voicing.shape, 'medium'))
        .map(({ bass }) => (printNote(bass) === written ? 'written' : 'another'));
      expect(basses[0], `${on.name} ${name}`).toBe('written');
      expect(basses.lastIndexOf('written'), `${on.name} ${name}`).toBe(
        basses.filter((at) => at === 'written').length - 1,
      );
    }
  }
});

test('a written bass comes lowest where that costs no climb up the neck, and sounds in any case', () => {
  for (const name of ['D/F#', 'C/E']) {
    const best = defaultShape(chord(name), HIGH_G);
    expect(printNote(best?.bass ?? { letter: 'C', accidental: 0 })).toBe(name.slice(2));
  }
  expect(printed('G/B', HIGH_G, 1)).toEqual(['0-2-3-2']);
  const best = defaultShape(chord('C/E'), HIGH_G);
  expect(lowestSounding(HIGH_G, best?.shape ?? [])?.midi).toBe(64);
});

test('a capo hides the frets below it and shortens the neck', () => {
  const capoed = instrument('soprano ukulele, capo 5');
  for (const { shape: found } of shapesFor(chord('F'), capoed, ALL)) {
    for (const fret of found) expect(fret === 'muted' || fret <= 7).toBe(true);
  }
  expect(printShape(defaultShape(chord('F'), capoed)?.shape ?? [])).toBe('0-0-0-3');
});

test('a chord that was asked before is answered from memory, and a long answer does not fill it', () => {
  const on = instrument('guitar');
  const asked = shapesFor(chord('Am7'), on);
  expect(shapesFor(chord('A-7'), on)).toBe(asked);
  expect(shapesFor(chord('Am7'), on, { max: 3 })).toEqual(asked.slice(0, 3));
  for (const root of ['C', 'D', 'E', 'F', 'G', 'A', 'B', 'Db', 'Eb', 'Gb', 'Ab', 'Bb']) {
    shapesFor(chord(`${root}m7`), on, { max: 1000 });
  }
  expect(shapesFor(chord('Am7'), on)).not.toBe(asked);
  expect(shapesFor(chord('Am7'), on)).toEqual(asked);
});

test('every kind of chord has a shape, from four strings to eight, and says truly what it lacks', () => {
  const eight = instrument('tuned E2 A2 D3 G3 B3 E4 G4 B4');
  const kinds = fc.constantFrom(...CHORD_KINDS.map((facts) => facts.suffix));
  const roots = fc.constantFrom('C', 'C#', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B');
  fc.assert(
    fc.property(
      roots,
      kinds,
      fc.constantFrom(HIGH_G, LOW_G, GUITAR, instrument('mandolin'), eight),
      (root, suffix, on) => {
        const symbol = chord(root + suffix);
        const best = defaultShape(symbol, on);
        if (best === undefined) throw new Error(`${symbol.text} on ${on.name}`);
        const heard = new Set(soundingMidi(on, best.shape).map((midi) => (midi === undefined ? -1 : midi % 12)));
        const silent = chordTones(symbol).filter((tone) => !heard.has(pitchClass(tone.note)));
        expect(best.omits).toEqual(silent.map((tone) => tone.role));
        expect(pitchClass(best.bass)).toBe((lowestSounding(on, best.shape)?.midi ?? 0) % 12);
        expect(best.spanFrets).toBe(measureReach(on, best.shape)?.spanFrets ?? 0);
        expect(best.reachMm).toBeCloseTo(measureReach(on, best.shape)?.reachMm ?? 0, 9);
      },
    ),
    { seed: SEED, numRuns: 150 },
  );
});
