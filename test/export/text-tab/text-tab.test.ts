import { describe, expect, test } from 'vitest';
import type { ExportedExercise } from '../../../shared/export/exported-exercise.ts';
import { textTabOf } from '../../../shared/export/text-tab/text-tab.ts';
import { barLength, COMMON_TIME, printMeter } from '../../../shared/theory/meter.ts';
import { compare } from '../../../shared/theory/rational.ts';
import { exerciseOf, exercisesOf, generatedExercises, samples } from '../exported-lessons.ts';
import { heardIn, heardInText } from './reread.ts';

const GENERATED = 300;

const SHAPES = 'lesson Lamps\nkey C\nchord C 0-0-0-3\nchord F 2-0-1-0\n';

function snippet(rows: string, { bars = '| C |', header = '' } = {}): ExportedExercise {
  return exerciseOf(
    `${SHAPES}${header}melody q\n  ${rows.split('; ').join('\n  ')}\nprogression v\n  ${bars}\nexercise Down the steps\n  play v\n  with q`,
  );
}

/** The lines between head and legend. */
function musicOf(exercise: ExportedExercise, columns?: number): readonly string[] {
  const parts = textTabOf(exercise, columns === undefined ? {} : { columns })
    .trimEnd()
    .split('\n\n');
  return parts
    .slice(1)
    .filter((part) => !part.startsWith('Signs:'))
    .flatMap((part) => part.split('\n'));
}

describe('the usual form', () => {
  test('strings, chords, count and fingers', () => {
    expect(musicOf(snippet('count 1 & 2 & 3 & 4 &; pick 4p 2i 3p 1m 4p 2i 3p 1m'))).toEqual([
      '   C',
      'A|-------3-------3-|',
      'E|---0-------0-----|',
      'C|-----0-------0---|',
      'g|-0-------0-------|',
      '   1 & 2 & 3 & 4 &',
      '   p i p m p i p m',
    ]);
  });

  test('head and legend', () => {
    const text = textTabOf(
      snippet('count 1 2 3 4; strum D U chunk D~; hit . . . .', { header: 'tempo 60 to 80 by 5\nby Ada Fenn\n' }),
    );
    expect(text.split('\n\n')[0]?.split('\n')).toEqual([
      'Down the steps',
      'from "Lamps", by Ada Fenn',
      'For tenor ukulele, high G. Strings 4 to 1: G4 C4 E4 A4.',
      'Time: 4/4; 60 to 80 quarter notes a minute, in steps of 5; sounds in C',
      '  major',
    ]);
    expect(text.trimEnd().split('\n\n').at(-1)).toBe(
      'Signs: x damped string; D U stroke down, up; D~ spread slowly;\n  C stroke stopped by the hand.',
    );
  });

  test.each([
    [
      'hammer-on and pull-off in columns of their own',
      'count 1 2 3 4; tune 1:5 h7 p5 .',
      'A|-5-h7-p5-----|',
      '   1  2  3  4',
    ],
    ['quick ones', 'count 1 2 3 4; tune 1:5h7p5 . 1:3 .', 'A|-5h7p5-------3-----------|', '   1     2     3     4'],
    ['slides up and down', 'count 1 2 3 4; tune 1:5s9 . 1:7 s3', 'A|-5/9-----7--\\3---|', '   1   2   3   4'],
    [
      'bend, vibrato, trill and harmonic',
      'count 1 2 3 4; tune 1:5b 1:5v 1:5t7 1:12*',
      'A|-5b----5~----5tr7-<12>---|',
      '   1     2     3     4',
    ],
  ])('%s', (_name, rows, strings, count) => {
    const lines = musicOf(snippet(rows));
    expect(lines.find((line) => line.startsWith('A|'))).toBe(strings);
    expect(lines.find((line) => line.trimStart().startsWith('1 '))).toBe(count);
  });

  // That a stop is part of what is played: LANGUAGE.md, marks of every row.
  test('strings are silenced where the lesson says so, on every bar', () => {
    const rows = 'count 1 2 3 4 | 1 2 3 4; pick 4p . stop . | 3p 2i stop43 stop';
    expect(musicOf(snippet(rows, { bars: '| C | F |' })).slice(-2)).toEqual([
      '   1    2    3    4      1      2      3      4',
      '   p         stop        p      i      stop43 stop',
    ]);
    const ending = musicOf(snippet('count 1 2 3 4; strum D D D stop', { bars: '|: C | 1st F :| 2nd C ||' }));
    expect(ending.join('\n').match(/D +D +D +stop/g)).toHaveLength(3);
  });

  test('every stop of the samples stands in their text', () => {
    for (const [name, text] of samples) {
      for (const exercise of exercisesOf(text)) {
        const stops = exercise.score.passes.flatMap(({ bars }) =>
          bars.flatMap((bar, index) =>
            bar.events
              .filter(({ kind }) => kind === 'stop')
              .map(({ at }) => `${index} ${at.numerator}/${at.denominator}`),
          ),
        );
        const written =
          musicOf(exercise)
            .join('\n')
            .match(/(?<=[\s+])stop\d*(?=\s|$)/gm) ?? [];
        const words = exercise.score.passes.flatMap(({ bars }) => bars.flatMap(({ calls }) => calls));
        if (words.some(({ text: said }) => said === 'stop')) continue;
        expect(written.length, `${name}: ${exercise.title}`).toBe(new Set(stops).size);
      }
    }
  });

  test('repeats with how often, endings, and a new line behind them', () => {
    const lines = musicOf(snippet('count 1-4; pick 4', { bars: '|: C | 1st F :| 2nd C || F |: C :| x3' }));
    expect(lines.find((line) => line.includes('Ending'))).toMatch(/^ +Ending 1 +Ending 2$/);
    expect(lines.filter((line) => line.startsWith('A|')).join(' ')).toMatch(/^A\|:-+\|-+:\|-+\|\|-+\|:-+:\| x3$/);
  });

  test('lines are no wider than asked, by default 72', () => {
    for (const [, text] of samples)
      for (const exercise of exercisesOf(text)) {
        for (const line of textTabOf(exercise).split('\n')) expect(line.length, line).toBeLessThanOrEqual(72);
        for (const line of textTabOf(exercise, { columns: 48 }).split('\n'))
          expect(line.length, line).toBeLessThanOrEqual(48);
      }
  });

  test('a bar that is wider than the line goes on in the next, without a bar line', () => {
    const rows =
      'count 1 e & a 2 e & a 3 e & a 4 e & a; pick 1:12 1:12 1:12 1:12 1:12 1:12 1:12 1:12 1:12 1:12 1:12 1:12 1:12 1:12 1:12 1:12';
    const strings = musicOf(snippet(rows), 30).filter((line) => line.startsWith('A|'));
    expect(strings).toHaveLength(2);
    expect(strings[0]?.endsWith('-')).toBe(true);
    expect(strings[1]?.endsWith('|')).toBe(true);
  });

  test('of two strings with one name the higher has a small letter', () => {
    const exercise = snippet('count 1 2 3 4; tune 1:0 6:0 . .', { header: 'for guitar\n' });
    expect(
      musicOf(exercise)
        .filter((line) => line.includes('|'))
        .map((line) => line.slice(0, 2)),
    ).toEqual(['e|', 'B|', 'G|', 'D|', 'A|', 'E|']);
  });
});

describe('read again by the reader of pasted text', () => {
  test.each(samples)('%s plays the same strings and frets at the same times', (_name, text) => {
    let exact = 0;
    for (const exercise of exercisesOf(text)) exact += check(exercise, exercise.title);
    expect(exact).toBeGreaterThan(2);
  });

  test('lessons made by chance, too', () => {
    let exact = 0;
    for (const { seed, exercise } of generatedExercises(GENERATED)) exact += check(exercise, `seed ${seed}`);
    expect(exact).toBeGreaterThan(GENERATED / 4);
  });
});

/**
 * 1 where the reading could be compared. Left out is what the reader makes something else of by design: quick moves of the left hand
 * come as notes of their own, signs alone in a column belong to the note before, and a meter that changes is read in one. Damped
 * strokes come back as strokes over neighbouring strings, so of them only the time is compared; where the music starts with a pickup,
 * times are counted from the first note.
 */
function check(exercise: ExportedExercise, name: string): number {
  const { passes } = exercise.score;
  const bars = passes.flatMap((pass) => pass.bars);
  const isOut = bars.some(({ events }) =>
    events.some(
      (event) =>
        event.kind === 'shape-slide' ||
        (event.kind === 'notes' &&
          event.notes.some(
            ({ techniques, arrivesBy }) =>
              techniques.some((one) => 'fret' in one) ||
              arrivesBy === 'bend' ||
              arrivesBy === 'vibrato' ||
              arrivesBy === 'harmonic',
          )),
    ),
  );
  const meter = bars[0]?.meter ?? COMMON_TIME;
  const isOneMeter = bars.every(
    (bar, index) =>
      printMeter(bar.meter) === printMeter(meter) &&
      (index === 0 || index === bars.length - 1 || compare(bar.length, barLength(meter)) === 0),
  );
  // A tab without a single figure says which strings are plucked.
  const isOnlyDamped = heardIn(bars).every(({ strings }) => strings.includes('x'));
  if (isOut || !isOneMeter || isOnlyDamped) return 0;
  // What is written once is read once.
  const text = textTabOf(exercise, { columns: 400 })
    .replaceAll('|:', '|-')
    .replaceAll(':|', '-|')
    .replace(/ x\d+$/gm, '');
  const isPickup = bars[0]?.number === undefined;
  const told = (heard: ReturnType<typeof heardIn>) => {
    const first = isPickup ? (heard[0]?.at ?? 0) : 0;
    return heard.map(({ at, strings }) => `${(at - first).toFixed(4)} ${strings.includes('x') ? 'x' : strings}`);
  };
  expect(told(heardInText(text, exercise, meter)), `${name}\n${text}`).toEqual(told(heardIn(bars)));
  return 1;
}
