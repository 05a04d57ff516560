import { describe, expect, test } from 'vitest';
import { knock } from '../../client/player/sound/knocks.ts';
import { recipeOf, type Voice } from '../../client/player/sound/tone.ts';
import { INSTRUMENTS } from '../../shared/neck/instrument-table.ts';
import { parseInstrument } from '../../shared/neck/instruments.ts';
import type { PerformedSound } from '../../shared/score/performance.ts';
import { midiNumber } from '../../shared/theory/note.ts';
import { cents, levelBetween, strongestNear } from './pitch.ts';

const RATE = 44_100;
const UKULELE: Voice = { material: 'nylon', body: 'small' };

function sound(kind: PerformedSound['kind'], midi: number, loudness = 0.65): PerformedSound {
  return { at: 0, end: 0, bar: 0, kind, midi, loudness, layer: 'accompaniment' };
}

/** Source: ISO 16:1975, A4 = 440 Hz; equal temperament by definition. Written apart from the product's own. */
function standardHertz(midi: number): number {
  return 440 * 2 ** ((midi - 69) / 12);
}

/** Every note that some string of some instrument of the product's table can sound. */
const NOTES: readonly number[] = (() => {
  const ends = INSTRUMENTS.flatMap(({ kind, frets, tunings }) =>
    tunings.flatMap(({ name }) => {
      const parsed = parseInstrument(`${kind}, ${name}`);
      if (!parsed.ok) throw new Error(`${kind}, ${name} is not read`);
      return parsed.value.openStrings.flatMap((pitch) => [midiNumber(pitch), midiNumber(pitch) + frets]);
    }),
  );
  const lowest = Math.min(...ends);
  return Array.from({ length: Math.max(...ends) - lowest + 1 }, (_, index) => lowest + index);
})();

describe('pitch', () => {
  test('the notes reach from a guitar in drop D to the last fret of a soprano and beyond', () => {
    expect(NOTES[0]).toBe(38);
    expect(NOTES.at(-1)).toBeGreaterThanOrEqual(69 + 12);
  });

  test('every note of every instrument is within 3 cents of ISO 16', () => {
    for (const midi of NOTES) {
      const samples = recipeOf(sound('pluck', midi), UKULELE).make(RATE);
      const off = cents(standardHertz(midi), strongestNear(samples, RATE, standardHertz(midi)));
      expect(Math.abs(off), `MIDI ${midi} is off by ${off} cents`).toBeLessThan(3);
    }
  });

  test.each(['strum', 'hammer-on', 'pull-off', 'slide', 'harmonic'] as const)(
    'so is a %s, at another rate of samples and on steel',
    (kind) => {
      for (const midi of [55, 69, 84]) {
        const samples = recipeOf(sound(kind, midi), { material: 'steel', body: 'large' }).make(48_000);
        const off = cents(standardHertz(midi), strongestNear(samples, 48_000, standardHertz(midi)));
        expect(Math.abs(off), `MIDI ${midi} is off by ${off} cents`).toBeLessThan(3);
      }
    },
  );

  test('the measure itself finds a tone that is 5 cents off', () => {
    const hertz = 440 * 2 ** (5 / 1200);
    const samples = Float32Array.from({ length: RATE }, (_, index) => Math.sin((2 * Math.PI * hertz * index) / RATE));
    expect(cents(440, strongestNear(samples, RATE, 440))).toBeCloseTo(5, 1);
  });
});

describe('how it dies away', () => {
  // Common practice, no source: a nylon string of a ukulele is gone in two to four seconds, a high one sooner than a low one.
  test('a ukulele string falls by 15 to 35 dB in the first second, and is quiet at its end', () => {
    for (const midi of [60, 64, 67, 69]) {
      const samples = recipeOf(sound('pluck', midi), UKULELE).make(RATE);
      const fall = levelBetween(samples, RATE, 0, 0.05) - levelBetween(samples, RATE, 1, 1.05);
      expect(fall).toBeGreaterThan(15);
      expect(fall).toBeLessThan(35);
      expect(levelBetween(samples, RATE, samples.length / RATE - 0.02, samples.length / RATE)).toBeLessThan(-55);
      expect(samples.length / RATE).toBeLessThanOrEqual(4);
    }
  });

  test('steel rings longer than nylon', () => {
    const ringing = (material: Voice['material']): number =>
      levelBetween(recipeOf(sound('pluck', 64), { material, body: 'small' }).make(RATE), RATE, 1, 1.1);
    expect(ringing('steel')).toBeGreaterThan(ringing('nylon') + 6);
  });

  test('a damped string is over in a tenth of a second', () => {
    expect(recipeOf(sound('muted', 67), UKULELE).make(RATE).length / RATE).toBeLessThan(0.15);
  });

  test('nothing goes beyond full scale, and nothing stands still beside the middle', () => {
    for (const kind of ['pluck', 'strum', 'muted', 'chunk', 'slap', 'palm', 'nails', 'body'] as const) {
      const samples = recipeOf(sound(kind, 67), UKULELE).make(RATE);
      const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
      const mean = samples.reduce((sum, sample) => sum + sample, 0) / samples.length;
      expect(peak).toBeGreaterThan(0.9);
      expect(peak).toBeLessThanOrEqual(1.0001);
      expect(Math.abs(mean)).toBeLessThan(0.01);
    }
  });
});

describe('telling sounds apart', () => {
  /** Where the middle of its power lies. Unit: Hz, by counting how often it crosses the middle. */
  function crossings(samples: Float32Array): number {
    let count = 0;
    for (let index = 1; index < samples.length; index += 1) {
      if ((samples[index] ?? 0) >= 0 !== (samples[index - 1] ?? 0) >= 0) count += 1;
    }
    return (count * RATE) / (2 * samples.length);
  }

  test('a palm is lower than a slap, a slap than a chop, a chop than nails', () => {
    const order = (['palm', 'slap', 'chunk', 'nails'] as const).map((name) => crossings(knock(name, RATE)));
    expect(order).toEqual([...order].sort((a, b) => a - b));
  });

  test('a hard touch is brighter than a soft one', () => {
    const partials = (loudness: number): number => {
      const samples = recipeOf(sound('pluck', 60, loudness), UKULELE).make(RATE);
      const difference = samples.map((sample, index) => sample - (samples[index - 1] ?? 0));
      return levelBetween(difference, RATE, 0, 0.1) - levelBetween(samples, RATE, 0, 0.1);
    };
    expect(partials(1)).toBeGreaterThan(partials(0.3) + 1);
  });

  test('the same recipe gives the same samples, and another pitch another recipe', () => {
    const once = recipeOf(sound('strum', 60), UKULELE);
    const again = recipeOf(sound('strum', 60), UKULELE);
    expect(again.key).toBe(once.key);
    expect(again.make(RATE)).toEqual(once.make(RATE));
    expect(recipeOf(sound('strum', 61), UKULELE).key).not.toBe(once.key);
  });
});
