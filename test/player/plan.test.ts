import { describe, expect, test } from 'vitest';
import { type PlayOptions, USUAL_OPTIONS } from '../../client/player/options.ts';
import { type Plan, planCountIn, planOf } from '../../client/player/plan.ts';
import { strumOffsets } from '../../shared/score/strum-spread.ts';
import { performanceIn } from '../score/performing.ts';

const CHORDS = 'chord C 0-0-0-3\nchord F 2-0-1-0\n';
const EIGHTHS = `tempo 120\n${CHORDS}pattern q\n  count 1 & 2 & 3 & 4 &\n  pick 4 3 2 1 4 3 2 1\nprogression v\n  | C | F | C | F | C | F |\nexercise e\n  play v\n  with q`;
const STRUMS = `tempo 60\n${CHORDS}pattern q\n  count 1 2 3 4\n  strum D U D~ .\nprogression v\n  | C | F |\nexercise e\n  play v\n  with q`;

function plan(lesson: string, wish: Partial<PlayOptions> = {}, perMinute = 120, stretch?: Plan['stretch']): Plan {
  const performance = performanceIn(lesson);
  return planOf(performance, stretch ?? { from: 0, to: performance.bars.length }, perMinute, {
    ...USUAL_OPTIONS,
    ...wish,
  });
}

function starts({ sounds }: Plan): readonly number[] {
  return sounds.map(({ at }) => Math.round(at * 1e6) / 1e3);
}

describe('E-8 must: bars 5 and 6 at half speed', () => {
  test('take exactly double the time, and sound the same pitches', () => {
    const loop = { from: 4, to: 6 };
    const full = plan(EIGHTHS, {}, 120, loop);
    const half = plan(EIGHTHS, {}, 60, loop);
    expect(full.length).toBe(4);
    expect(half.length).toBe(8);
    expect(half.sounds.map(({ at }) => at)).toEqual(full.sounds.map(({ at }) => at * 2));
    const pitches = (of: Plan) => of.sounds.map((one) => one.kind === 'sound' && one.sound.midi);
    expect(pitches(half)).toEqual(pitches(full));
  });

  test('nothing of another bar sounds in it, and nothing beyond its end', () => {
    const { sounds, length } = plan(EIGHTHS, {}, 120, { from: 4, to: 6 });
    expect(sounds).toHaveLength(16);
    for (const one of sounds) {
      expect(one.at).toBeGreaterThanOrEqual(0);
      expect(one.at).toBeLessThan(length);
      if (one.kind === 'sound') expect(one.end).toBeLessThanOrEqual(length);
    }
  });
});

describe('swing', () => {
  test('C-3 must: 333 ms then 167 ms at 120, and 250 ms each with swing off', () => {
    const swung = `feel swing\n${EIGHTHS}`;
    const on = starts(plan(swung)).slice(0, 3);
    expect(on[1]).toBeCloseTo(333.333, 2);
    expect((on[2] ?? 0) - (on[1] ?? 0)).toBeCloseTo(166.667, 2);
    expect(starts(plan(swung, { swing: false })).slice(0, 3)).toEqual([0, 250, 500]);
  });
});

describe('tune and accompaniment', () => {
  const layersOf = (of: Plan) => new Set(of.sounds.flatMap((one) => (one.kind === 'sound' ? [one.sound.layer] : [])));
  const BOTH = EIGHTHS.replace('exercise', 'melody m\n  count 1 2 3 4\n  tune 1:5 1:7 1:5 1:3\nexercise').replace(
    'with q',
    'with q + m',
  );

  test('each is muted by itself', () => {
    expect(layersOf(plan(BOTH))).toEqual(new Set(['tune', 'accompaniment']));
    expect(layersOf(plan(BOTH, { tune: false }))).toEqual(new Set(['accompaniment']));
    expect(layersOf(plan(BOTH, { accompaniment: false }))).toEqual(new Set(['tune']));
  });

  test('what is alone is heard, whatever was muted in another exercise', () => {
    const tuneAlone = BOTH.replace('q + m', 'm');
    expect(layersOf(plan(tuneAlone, { tune: false }))).toEqual(new Set(['tune']));
    expect(layersOf(plan(EIGHTHS, { accompaniment: false }))).toEqual(new Set(['accompaniment']));
  });
});

describe('strokes', () => {
  test('each string comes when the hand meets it, at the tempo that is played', () => {
    for (const perMinute of [15, 60, 90]) {
      const found = plan(STRUMS, {}, perMinute).sounds.slice(0, 4);
      const beatMs = 60_000 / perMinute;
      const expected = strumOffsets({ strings: 4, direction: 'down', slow: false, lengthMs: beatMs, beatMs });
      expect(found.map((one) => (one.kind === 'sound' ? one.sound.string : 0))).toEqual([4, 3, 2, 1]);
      for (const [index, { at }] of found.entries()) expect(at * 1000).toBeCloseTo(expected[index] ?? 0, 6);
    }
  });

  test('an up stroke begins at string 1, a slow one takes its time', () => {
    const { sounds } = plan(STRUMS, {}, 60);
    const up = sounds.slice(4, 8);
    expect(up.map((one) => (one.kind === 'sound' ? one.sound.string : 0))).toEqual([1, 2, 3, 4]);
    const took = (from: number): number => (sounds[from + 3]?.at ?? 0) - (sounds[from]?.at ?? 0);
    expect(took(8)).toBeGreaterThan(3 * took(0));
  });

  test('a string rings until the stroke has come to it: it is never silent in between', () => {
    const { sounds } = plan(STRUMS, {}, 60);
    for (const string of [1, 2, 3, 4]) {
      const own = sounds.filter((one) => one.kind === 'sound' && one.sound.string === string);
      for (const [index, one] of own.entries()) {
        const next = own[index + 1];
        if (one.kind === 'sound' && next !== undefined) expect(one.end).toBeCloseTo(next.at, 9);
      }
    }
  });
});

describe('clicks and layers', () => {
  test('the metronome clicks on every beat, the first of a bar strongly', () => {
    const clicks = plan(STRUMS, { metronome: true }, 60).sounds.filter(({ kind }) => kind === 'click');
    expect(clicks.map(({ at }) => at)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(clicks.map((one) => one.kind === 'click' && one.strong).slice(0, 5)).toEqual([
      true,
      false,
      false,
      false,
      true,
    ]);
  });

  test('E-7 should: four clicks before the music, one bar long', () => {
    const { sounds, length } = planCountIn(performanceIn(STRUMS), 0, 60, true);
    expect(sounds.map(({ at }) => at)).toEqual([0, 1, 2, 3]);
    expect(length).toBe(4);
  });

  test('a tune or what goes with it can be left out', () => {
    const both = `${CHORDS}melody q\n  count 1 2 3 4\n  tune . 1:5 . 1:7\n  pick 4 . 3 .\nprogression v\n  | C |\nexercise e\n  play v\n  with q`;
    const strings = (wish: Partial<PlayOptions>) =>
      plan(both, wish).sounds.map((one) => one.kind === 'sound' && one.sound.string);
    expect(strings({})).toEqual([4, 1, 3, 1]);
    expect(strings({ tune: false })).toEqual([4, 3]);
    expect(strings({ accompaniment: false })).toEqual([1, 1]);
  });
});

describe('marks', () => {
  test('every bar and every moment in it, when it is heard', () => {
    const { marks } = plan(EIGHTHS, {}, 120, { from: 0, to: 1 });
    expect(
      marks.filter(({ moment, chord }) => moment === undefined && chord === undefined).map(({ at, bar }) => [at, bar]),
    ).toEqual([[0, 0]]);
    expect(marks.flatMap(({ at, moment }) => (moment === undefined ? [] : [at]))).toEqual([
      0, 0.25, 0.5, 0.75, 1, 1.25, 1.5, 1.75,
    ]);
  });

  test('a stretch begins with the chord that is held there, also where it was taken before', () => {
    const held = EIGHTHS.replace('| C | F | C | F | C | F |', '| C | / | F | F |');
    const { marks } = plan(held, {}, 120, { from: 1, to: 4 });
    expect(marks.flatMap(({ at, chord }) => (chord === undefined ? [] : [[at, chord]])).slice(0, 2)).toEqual([
      [0, 0],
      [2, 1],
    ]);
  });
});
