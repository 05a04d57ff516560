import { describe, expect, test } from 'vitest';
import type { Problem } from '../../../shared/text/problem.ts';
import { faultsIn, problemsIn } from './checking.ts';

const EM = 'chord Em 0-4-3-2 fingers 0-3-2-1\n';
const ROLL = 'pattern roll\n  count 1 & 2 & 3 & 4 &\n  pick 4p 2i 3p 1m 4p 2i 3p 1m\n';

function found(lesson: string, code: string): readonly Problem[] {
  return problemsIn(lesson).filter((problem) => problem.code === code);
}

describe('a tune inside a shape that is held', () => {
  test('what no finger reaches is told with the finger that is free and how far it comes', () => {
    const [problem, ...more] = found(`${EM}melody m\n  Em 1:9 1:5 1:9 1:0`, 'tune.out-of-hand');
    expect(more).toEqual([]);
    expect(problem?.message).toMatch(
      /^While Em is held no finger reaches string 1 fret 9; the little finger is free and reaches fret [56], no farther\. Warm up/,
    );
  });

  test('with the fingers that are suggested where the lesson gives none, and on larger instruments less far', () => {
    const reach = (kind: string) =>
      Number(
        /reaches fret (\d+)/.exec(
          found(`for ${kind}\nchord Em 0-4-3-2\nmelody m\n  Em 1:12 . . .`, 'tune.out-of-hand')[0]?.message ?? '',
        )?.[1],
      );
    expect(reach('soprano ukulele')).toBeGreaterThanOrEqual(reach('tenor ukulele'));
    expect(reach('tenor ukulele')).toBeGreaterThan(3);
  });

  test('behind the fingers nothing can be put down; other fingers for the shape are a hint', () => {
    const shape = 'chord D(add9) 7-6-0-0 fingers 2-1-0-0\nmelody m\n  D(add9) 1:5 1:7 1:9 1:0';
    expect(found(shape, 'tune.out-of-hand')).toEqual([]);
    const [hint] = found(shape, 'tune.other-fingers');
    expect(hint?.severity).toBe('hint');
    expect(hint?.message).toContain('With fingers 3-2-0-0 for D(add9) it can be played.');
  });

  test('a harmonic is touched, not held down', () => {
    expect(faultsIn(`${EM}melody m\n  Em 1:12* . . .`)).toEqual([]);
  });

  test('what a technique arrives at must be reached too', () => {
    expect(found(`${EM}melody m\n  Em 1:5 h9 . .`, 'tune.out-of-hand')).toHaveLength(1);
    expect(found(`${EM}melody m\n  Em 1:4h5 . . .`, 'tune.out-of-hand')).toEqual([]);
  });

  test('two notes at once are held down together or not at all', () => {
    const lesson = (second: string) => `chord C 0-0-0-3 fingers 0-0-0-3\nmelody m\n  C 1:7+${second} . . .`;
    expect(problemsIn(lesson('2:7'))).toEqual([]);
    const [problem] = found(lesson('2:1'), 'tune.out-of-hand');
    expect(problem?.message).toContain('string 1 fret 7');
  });

  test('a shape that is itself out of reach is told of its line alone', () => {
    const lesson = 'chord Bb 3-2-13-1\nmelody m\n  Bb 1:9 . . .';
    expect(problemsIn(lesson).map(({ code }) => code)).toEqual(['reach.too-far']);
  });

  test('a tune by itself may leave the shape; played with a roll it may not where the roll needs the finger', () => {
    const tune = 'melody t\n  count 1 & 2 & 3 & 4 &\n  tune 1:9 . . . 1:2 . . .\n';
    const over = (each: string) => `${EM}${ROLL}${tune}exercise e\n  over Em\n  each ${each}\n`;
    expect(found(over('roll, t'), 'tune.out-of-hand')).toEqual([]);
    const lesson = over('roll + t');
    const [problem, ...more] = found(lesson, 'tune.out-of-hand');
    expect(more).toEqual([]);
    expect(lesson.slice(problem?.span.start, problem?.span.end)).toBe('t');
    expect(problem?.message).toMatch(/^In t, at 1:9: While Em is held no finger reaches string 1 fret 9;/);
  });

  test('the bar is named where the tune goes over a progression', () => {
    const lesson = `${EM}chord C 0-0-0-3\n${ROLL}melody t\n  count 1-4\n  tune 1:9\nprogression v\n  | C | Em |\nexercise e\n  play v\n  with roll + t\n`;
    expect(found(lesson, 'tune.out-of-hand').map(({ message }) => message.slice(0, 26))).toEqual([
      'In t, bar 2, at 1:9: While',
    ]);
  });

  test('a finger that a row names and that leaves its string is respected; what rings meanwhile makes it a warning', () => {
    const lesson = (more: string) => `${EM}melody m\n  count 1 & 2 &\n${more}  Em 1:5 . 1:0 .\n  fingers 3 . 0 .\n`;
    const severities = (text: string) => found(text, 'fingers.lifts').map(({ severity }) => severity);
    expect(severities(lesson(''))).toEqual(['hint']);
    expect(severities(lesson('  ring 3\n'))).toEqual(['warning']);
    expect(severities(lesson('  pick . 3p . .\n'))).toEqual(['warning']);
    expect(severities(lesson('  pick . 4p . .\n'))).toEqual(['hint']);
  });

  test('another finger that must lift for it is told: the barre of Dm7 on a long neck', () => {
    // 98.9 mm from the index at fret 1 to the little finger at fret 5, and 97.7 mm is what this pair has.
    const lesson = (more: string) =>
      `for baritone ukulele\nchord Dm7 0-2-1-1 fingers 0-2-1-1\nmelody m\n  count 1 2 3 4\n${more}  Dm7 1:5 . 1:1 .\n  fingers 4 . 1 .\n`;
    const [problem, ...more] = found(lesson(''), 'fingers.lifts');
    expect(more).toEqual([]);
    expect(problem?.severity).toBe('hint');
    expect(problem?.message).toBe(
      'In Dm7 the index finger holds string 2; for the little finger to play this note it lifts, and string 2 stops sounding.',
    );
    expect(found(lesson(''), 'fingers.out-of-reach')).toEqual([]);
    expect(found(lesson('  ring 2\n'), 'fingers.lifts').map(({ severity }) => severity)).toEqual(['warning']);
  });

  test('an open string under a barre: the barre lifts', () => {
    const lesson = `chord D 2-2-2-5 fingers 1-1-1-4\nmelody m\n  count 1 2 3 4\n  D 1:5 . 3:0 .\n  fingers 4 . 0 .\n`;
    expect(found(lesson, 'fingers.lifts').map(({ message }) => message)).toEqual([
      'In D the index finger holds strings 4 and 2; for string 3 to ring open it lifts, and strings 4 and 2 stop sounding.',
    ]);
    expect(found(lesson, 'tune.out-of-hand')).toEqual([]);
  });
});

describe('at once', () => {
  test.each([
    ['a tune in the stroke that carries it', 'melody m\n  count 1 2 3 4\n  tune 1:5 . 1:3 .\n  strum D D D D'],
    [
      'a pick row that says which finger plucks the tune',
      'melody m\n  count 1 2 3 4\n  tune 1:5 . 1:3 .\n  pick 1a . 1a .',
    ],
    ['the thumb across neighbours', 'pattern r\n  pick 4p+3p+2p . . .'],
    ['a pinch and a roll', 'pattern r\n  pick 4p+3i+2m+1a . . .'],
    ['a knock on the wood with a pluck', 'pattern r\n  count 1 2 3 4\n  pick 4p 3i 2m 1a\n  hit body . nails .'],
    ['rows for two chords', 'melody m\n  count 1 2 3 4\n  Em 1:2 . . .\n  C 1:3 . . .'],
    [
      'a row for one chord and the row for any that it replaces',
      'pattern r\n  count 1 2 3 4\n  pick 4p . 3i .\n  pick C 4p . 4i .',
    ],
  ])('%s', (_what, lesson) => expect(faultsIn(lesson)).toEqual([]));

  test('what repeats in a pattern is told once', () => {
    const lesson = 'pattern r\n  count 1 2 3 4\n  strum D D D D\n  pick 1a 1a 1a 1a';
    expect(faultsIn(lesson)).toEqual(['error strum.with-pick "1a"']);
  });

  test('marks that another pattern gives are told there', () => {
    const base = 'pattern r\n  count 1 2 3 4\n  pick 3i+2i . . .\n';
    expect(found(`${base}pattern s\n  like r\n  strum . D . .`, 'pick.finger-twice')).toHaveLength(1);
    expect(found(`${base}pattern s\n  like r\n  strum D . . .`, 'strum.with-pick')).toHaveLength(1);
  });
});

// Common practice, no source: one hand strums or picks; what it damps does not sound.
describe('patterns that are played together', () => {
  const over = (one: string, other: string, exercise: string) =>
    `chord C 0-0-0-3\nprogression v\n  | C |\npattern r\n  ${one}\npattern s\n  ${other}\nexercise e\n  ${exercise}\n`;
  const together = (one: string, other: string, exercise = 'play v\n  with r + s') =>
    problemsIn(over(one, other, exercise)).filter(({ severity }) => severity === 'error' || severity === 'warning');

  test('what one hand cannot do at once is told once, at the later of the two, with its beat', () => {
    const lesson = over('strum D D D D', 'pick . 4p 3i 2m', 'play v\n  with r + s, r + s');
    const [problem, ...more] = problemsIn(lesson).filter(({ code }) => code === 'strum.with-pick');
    expect(more).toEqual([]);
    expect(problem?.message).toMatch(/^r \+ s cannot be played by one hand, on 2: D takes the whole hand across/);
    expect(lesson.slice(problem?.span.start, problem?.span.end)).toBe('s');
    expect(lesson.slice(0, problem?.span.start)).toMatch(/with r \+ $/);
  });

  test.each([
    ['a palm in a stroke', 'strum D D D D', 'hit . . palm .', 'hit.with-strum'],
    ['two pick rows with one finger', 'pick 4p . 3p .', 'pick 1p . 2i .', 'pick.finger-twice'],
    ['two pick rows on one string', 'pick 4p . . .', 'pick 4i . . .', 'mark.two-at-once'],
    [
      'off the beat',
      'count 1 & 2 & 3 & 4 &\n  strum . . . U . . . .',
      'count 1 2 & 3 4\n  pick 4p . 3i . .',
      'strum.with-pick',
    ],
  ])('%s', (_what, one, other, code) => expect(together(one, other).map((problem) => problem.code)).toEqual([code]));

  test.each([
    ['a strum and knocks between its strokes', 'strum D . D .', 'hit . palm . palm'],
    ['picking and another row of it', 'pick 4p . 3p .', 'pick . 1i . 2m'],
    ['a pinch of two rows', 'pick 4p . 3p .', 'pick 1i . 2m .'],
    ['a strum of the low strings and a picked high one', 'strum D43 . D43 .', 'pick 1a . 1a .'],
    ['a knock on the wood', 'pick 4p 3i 2m 1a', 'hit body . nails .'],
    ['rows for two chords', 'count 1 2 3 4\n  pick F 4p . . .', 'count 1 2 3 4\n  pick C 4i . . .'],
  ])('but not: %s', (_what, one, other) => expect(together(one, other)).toEqual([]));

  test('one after another they do not meet, and over single chords they do', () => {
    expect(together('strum D D D D', 'pick 4p 3i 2m 1a', 'play v\n  with r, s')).toEqual([]);
    expect(together('strum D D D D', 'pick 4p 3i 2m 1a', 'over C\n  each r + s')).toHaveLength(1);
  });
});

describe('ring', () => {
  test('a tune has its own string to itself, the accompaniment has not', () => {
    expect(faultsIn('melody m\n  ring 1\n  tune 1:5 1:3 1:0 .')).toEqual([]);
    expect(faultsIn('melody m\n  count 1 2 3 4\n  ring 1\n  tune 1:5 . 1:0 .\n  strum . D . .')).toEqual([
      'warning ring.stopped "1:5"',
    ]);
    expect(faultsIn('pattern r\n  ring 1\n  pick 4 3 1 stop')).toEqual([]);
  });
});

test('five to eight strings: a note beside a shape of the guitar, and the thumb that walks', () => {
  const guitar = 'for guitar\nchord D/F# 2-x-0-2-3-2 fingers T-x-0-1-3-2\npattern w\n  count 1 2 3 4\n';
  const walk = (fret: number) =>
    `${guitar}  pick 6p:2 3i 6p:${fret} 3i\n  fingers T . T .\nexercise e\n  over D/F#\n  each w`;
  expect(faultsIn(walk(3))).toEqual([]);
  expect(problemsIn(walk(9)).filter(({ severity }) => severity === 'warning')).toHaveLength(1);
});
