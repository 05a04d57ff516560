import { describe, expect, test } from 'vitest';
import type { TimelineFile } from '../../shared/export/timeline-file.ts';
import { timelineJsonOf } from '../../shared/export/timeline-json.ts';
import { soundingNotes } from '../../shared/score/sounding.ts';
import { compare, plus, type Rational, rational, ZERO } from '../../shared/theory/rational.ts';
import { exerciseOf, exercisesOf, generatedExercises, samples } from './exported-lessons.ts';

function read(json: string): TimelineFile {
  return JSON.parse(json) as TimelineFile;
}

function fraction(text: string): Rational {
  const [numerator = '', denominator = '1'] = text.split('/');
  expect(text).toMatch(/^-?\d+(\/\d+)?$/);
  return rational(Number(numerator), Number(denominator));
}

const LESSON = `lesson  Lamps
for     tenor ukulele, high G, capo 2
key     C
feel    swing
tempo   60 to 80 by 5 every 2

chord  C  0-0-0-3  fingers 0-0-0-3

melody  hum
  count  1     2    3      4
  tune   1:5!  h7   2:3*   stop
  pick   4p    .    3i^    .
  words  Lan-  terns  .    .
  say    .     .    .      up

progression  v
  |: C | NC :|

exercise  Down the steps
  aim   One at a time
  play  v
  with  hum
`;

/** Every path of keys in a value, lists as one: `passes.bars.events.kind`. */
function paths(value: unknown, path = ''): readonly string[] {
  if (Array.isArray(value)) return value.flatMap((item) => paths(item, path));
  if (typeof value !== 'object' || value === null) return [path];
  return Object.entries(value).flatMap(([key, child]) => [
    ...(path === '' ? [] : [path]),
    ...paths(child, path === '' ? key : `${path}.${key}`),
  ]);
}

describe('the timeline as JSON', () => {
  const file = read(timelineJsonOf(exerciseOf(LESSON)));

  test('has these fields, which scripts rely on', () => {
    const fields = new Set(
      samples.flatMap(([, text]) => exercisesOf(text)).flatMap((exercise) => paths(read(timelineJsonOf(exercise)))),
    );
    expect([...fields].sort()).toMatchSnapshot();
  });

  test('says what the exercise is', () => {
    expect(file).toMatchObject({
      format: 'handspan-timeline',
      version: 1,
      lesson: { title: 'Lamps' },
      exercise: { number: 1, title: 'Down the steps', aim: 'One at a time' },
      key: { held: 'C major', sounding: 'D major' },
      feel: { long: 2, short: 1, unit: 8 },
      tempo: { from: 60, to: 80, by: 5, everyTimes: 2 },
    });
    // A4 with the capo at fret 2 is B4. Source: MIDI 1.0, A4 is 69.
    expect(file.instrument.strings[0]).toEqual({ string: 1, pitch: 'A4', midi: 71 });
  });

  test('leads back to the lines of the text', () => {
    const lines = LESSON.split('\n');
    const [bar] = file.passes[0]?.bars ?? [];
    expect(lines[(bar?.line ?? 0) - 1]).toContain('|: C | NC :|');
    expect(bar?.events.map(({ kind, line }) => `${kind}: ${lines[line - 1]?.trim().split(' ')[0]}`)).toEqual([
      'notes: tune',
      'notes: pick',
      'notes: tune',
      'notes: tune',
      'notes: pick',
      'stop: tune',
    ]);
  });

  test('tells notes with their pitch and what hands do', () => {
    const events = file.passes[0]?.bars[0]?.events ?? [];
    const notes = events.flatMap((event) => (event.kind === 'notes' ? event.notes : []));
    expect(notes[0]).toMatchObject({ string: 1, fret: 5, midi: 76, accent: true });
    expect(notes.find(({ arrivesBy }) => arrivesBy === 'hammer-on')).toMatchObject({ fret: 7, arrivesFrom: 5 });
    expect(notes.find(({ finger }) => finger === 'i')).toMatchObject({ string: 3, restStroke: true });
    expect(file.passes[0]?.bars[1]?.chords[0]).toMatchObject({ name: null, frets: null });
  });

  test('plays repeats out', () => {
    expect(file.played.bars.map(({ bar, at }) => `${bar} ${at}`)).toEqual(['0 0', '1 1', '0 2', '1 3']);
    expect(file.played.length).toBe('4');
    expect(file.played.caution).toContain('stop');
  });

  test('the same lesson gives the same bytes', () => {
    expect(timelineJsonOf(exerciseOf(LESSON))).toBe(timelineJsonOf(exerciseOf(LESSON)));
  });

  test('samples and lessons made by chance: bars are full, and what is struck on strings is heard', () => {
    const exercises = [
      ...samples.flatMap(([, text]) => exercisesOf(text)),
      ...[...generatedExercises(100)].map(({ exercise }) => exercise),
    ];
    for (const exercise of exercises) {
      const { passes, played } = read(timelineJsonOf(exercise));
      expect(passes.flatMap(({ bars }) => bars).length).toBe(exercise.score.passes.flatMap(({ bars }) => bars).length);
      for (const { bars } of passes) {
        for (const bar of bars) {
          for (const { at, length } of bar.events)
            expect(compare(plus(fraction(at), fraction(length)), fraction(bar.length))).toBeLessThanOrEqual(0);
          expect(bar.line).toBeGreaterThan(1);
        }
      }
      const written = played.bars.reduce(
        (sum: Rational, { pass, bar }) => plus(sum, fraction(passes[pass - 1]?.bars[bar]?.length ?? '0')),
        ZERO,
      );
      // Swing moves notes in a bar and leaves bars as long as they are, but for a pickup.
      const hasPickup = passes.some(({ bars }) => bars.some(({ number }) => number === null));
      if (!hasPickup) expect(fraction(played.length)).toEqual(written);
      const struck = exercise.score.passes.flatMap(({ bars }) => soundingNotes(bars)).length;
      const heard = played.sounds.filter(({ kind, midi }) => midi !== undefined && kind !== 'muted').length;
      expect(heard).toBeGreaterThanOrEqual(struck);
      for (const { at, end, bar } of played.sounds) {
        expect(compare(fraction(at), fraction(end))).toBeLessThanOrEqual(0);
        expect(played.bars[bar]).toBeDefined();
      }
    }
  });
});
