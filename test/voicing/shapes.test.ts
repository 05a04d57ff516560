import fc from 'fast-check';
import { expect, test } from 'vitest';
import { measureReach } from '../../shared/hand/reach.ts';
import { lowestSounding, soundingMidi } from '../../shared/neck/pitches.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { CHORD_KINDS } from '../../shared/theory/chord-kinds.ts';
import { chordTones } from '../../shared/theory/chord-symbol.ts';
import { pitchClass, printNote } from '../../shared/theory/note.ts';
import { judgeFit } from '../../shared/voicing/fit.ts';
import { defaultShape, shapesFor } from '../../shared/voicing/shapes.ts';
import { BARITONE, HIGH_G, instrument, LOW_G, shape } from '../neck/playing.ts';
import { chord, SEED } from '../theory/reading.ts';
import { USUAL_CHART } from './usual-chart.ts';

const GUITAR = instrument('guitar');
const ALL = { max: Number.POSITIVE_INFINITY };

function printed(name: string, on: typeof HIGH_G, max: number): readonly string[] {
  return shapesFor(chord(name), on, { max }).map((voicing) => printShape(voicing.shape));
}

/** Chart shapes that do not come first, and what does: there are more good shapes than charts have room for. */
const CHART_DIFFERS: Readonly<Record<string, string>> = { Em: '0-4-0-2', Fmaj7: '5-5-0-0', Ab: '1-3-4-3' };

test('the chart shape comes first for nearly every chord, and among the first three for all', () => {
  const charted = chartedNames();
  const differing: Record<string, string> = {};
  for (const [name, rows] of charted) {
    const shapes = rows.map(([frets]) => printShape(shape(frets)));
    const offered = printed(name, HIGH_G, 3);
    expect(offered.some((one) => shapes.includes(one)) ? name : offered).toBe(name);
    if (!shapes.includes(offered[0] ?? '')) differing[name] = offered[0] ?? '';
  }
  expect(differing).toEqual(CHART_DIFFERS);
  expect(Object.keys(differing).length / charted.size).toBeLessThan(0.2);
});

function chartedNames(): ReadonlyMap<string, readonly (typeof USUAL_CHART)[number][]> {
  const names = new Map<string, (typeof USUAL_CHART)[number][]>();
  for (const row of USUAL_CHART) names.set(row[1], [...(names.get(row[1]) ?? []), row]);
  return names;
}

test.each([
  ['C', 'x-3-2-0-1-0'],
  ['D', 'x-x-0-2-3-2'],
  ['E', '0-2-2-1-0-0'],
  ['G', '3-2-0-0-0-3'],
  ['A', 'x-0-2-2-2-0'],
  ['F', '1-3-3-2-1-1'],
  ['Am', 'x-0-2-2-1-0'],
  ['Em', '0-2-2-0-0-0'],
  ['Dm', 'x-x-0-2-3-1'],
  ['G/B', 'x-2-0-0-0-3'],
])('the guitar shape everybody learns for %s comes first', (name, frets) => {
  expect(printed(name, GUITAR, 1)).toEqual([frets]);
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

test('wishes: how many, where, near what', () => {
  expect(shapesFor(chord('C'), HIGH_G, { max: 3 })).toHaveLength(3);
  for (const { shape: found } of shapesFor(chord('G7'), HIGH_G, { within: [5, 9], ...ALL })) {
    for (const fret of found) expect(fret === 0 || (typeof fret === 'number' && fret >= 5 && fret <= 9)).toBe(true);
  }
  const near = shapesFor(chord('C'), HIGH_G, { near: shape('5558'), max: 1 })[0];
  expect(measureReach(HIGH_G, near?.shape ?? [])?.lowFret).toBeGreaterThanOrEqual(3);
});

test('a capo hides the frets below it and shortens the neck', () => {
  const capoed = instrument('soprano ukulele, capo 5');
  for (const { shape: found } of shapesFor(chord('F'), capoed, ALL)) {
    for (const fret of found) expect(fret === 'muted' || fret <= 7).toBe(true);
  }
  expect(printShape(defaultShape(chord('F'), capoed)?.shape ?? [])).toBe('0-0-0-3');
});

// The search against a few lines that try every fret on every string.
test.each(['C', 'Am7', 'G7#9', 'Fmaj9', 'Bdim7', 'D/F#'])('every shape of %s is found, and nothing else', (name) => {
  const symbol = chord(name);
  const found = new Set(shapesFor(symbol, BARITONE, ALL).map((voicing) => printShape(voicing.shape)));
  const expected = new Set<string>();
  const frets = Array.from({ length: 16 }, (_, fret) => fret);
  for (const a of frets)
    for (const b of frets)
      for (const c of frets)
        for (const d of frets) {
          const stopped = [a, b, c, d].filter((fret) => fret > 0);
          if (stopped.length > 0 && Math.max(...stopped) - Math.min(...stopped) > 3) continue;
          const fit = judgeFit(BARITONE, [a, b, c, d], symbol);
          const right = fit.verdict === 'fits' || fit.verdict === 'fits-incomplete';
          if (right && fit.writtenBass !== 'missing') expected.add(`${a}-${b}-${c}-${d}`);
        }
  expect([...found].sort()).toEqual([...expected].sort());
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
