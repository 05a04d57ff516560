import { describe, expect, test } from 'vitest';
import { folds, ghosts, outline } from './asking.ts';

describe('outline', () => {
  test('parts hold what stands under them, runs of chords are one item', () => {
    expect(
      outline(
        'lesson L\nchord C 0-0-0-3\nchord F 2-0-1-0\npattern roll\n  pick 4 3 2 1\npart Two\nchord G 0-2-3-2\nprogression verse\n  | C |\nexercise One\n  play verse\n  minutes 5\npart Three\nmelody climb\n  tune 1:0 . . .\nfamily drone\n  from verse\nedition bari\n  capo 2\n',
      ),
    ).toEqual([
      'chords C F',
      '  chord C (0-0-0-3)',
      '  chord F (2-0-1-0)',
      'pattern roll',
      'part Two',
      '  chords G',
      '    chord G (0-2-3-2)',
      '  progression verse',
      '  exercise One (5 min)',
      'part Three',
      '  melody climb',
      '  family drone',
      '  edition bari',
    ]);
  });

  test('a statement between chord lines parts the run', () => {
    expect(
      outline('chord C 0-0-0-3\n> Now the next.\nchord F 2-0-1-0').filter((line) => line.startsWith('chords')),
    ).toEqual(['chords C', 'chords F']);
  });

  test('what has no name yet is called by what it is', () => {
    expect(outline('progression\nexercise\nchord')).toEqual([
      'progression progression',
      'exercise exercise',
      'chords chord',
      '  chord chord',
    ]);
  });

  test('an empty lesson has none', () => expect(outline('')).toEqual([]));
});

describe('folds', () => {
  test('blocks of more than one line, without the empty lines behind them', () => {
    expect(folds('key C\n\nprogression v\n  | C |\n  words la\n\n> one\n> two\n\n> alone\n\npattern r\n')).toEqual([
      'progression v … words la',
      '> one … > alone',
    ]);
  });
  test('single lines do not fold', () => expect(folds('key C\nchord C 0-0-0-3\nexercise One')).toEqual([]));
});

describe('ghost text', () => {
  test('the usual shape of a chord without a line, at its first use only', () => {
    expect(ghosts('chord F 2-0-1-0\nprogression v\n  | C | F | C |')).toBe(
      'chord F 2-0-1-0\nprogression v\n  | C{ 0-0-0-3} | F | C |',
    );
  });

  test.each([
    ['four', 'pattern r\n  strum D D D D', 'pattern r\n  strum D D D D{  count 1 2 3 4}'],
    ['eight', 'pattern r\n  pick 4 3 2 1 4 3 2 1', 'pattern r\n  pick 4 3 2 1 4 3 2 1{  count 1 & 2 & 3 & 4 &}'],
    [
      'twelve',
      'pattern r\n  strum D D U D D U D D U D D U',
      'pattern r\n  strum D D U D D U D D U D D U{  count 1 la li 2 la li 3 la li 4 la li}',
    ],
    ['three in 3/4', 'meter 3/4\npattern r\n  strum D U U', 'meter 3/4\npattern r\n  strum D U U{  count 1 2 3}'],
    [
      'six in 6/8',
      'meter 6/8\npattern r\n  strum D U U D U U',
      'meter 6/8\npattern r\n  strum D U U D U U{  count 1 2 3 4 5 6}',
    ],
    ['two in 6/8', 'meter 6/8\npattern r\n  strum D D', 'meter 6/8\npattern r\n  strum D D{  count 1 2}'],
    [
      'only the first row',
      'pattern r\n  strum D D D D\n  hit . palm . .',
      'pattern r\n  strum D D D D{  count 1 2 3 4}\n  hit . palm . .',
    ],
  ])('the count of a row without one: %s', (_name, lesson, expected) => expect(ghosts(lesson)).toBe(expected));

  test.each([
    ['a count is written', 'pattern r\n  count 1 2 3 4\n  strum D D D D'],
    ['it does not share the bar', 'pattern r\n  strum D D D D D'],
    ['another pattern counts', 'pattern q\n  count 1 2 3 4\n  strum D D D D\npattern r\n  like q\n  strum D D D U'],
    ['no chord is played', 'progression v\n  | NC | % |'],
  ])('none where %s', (_name, lesson) => expect(ghosts(lesson)).toBe(lesson));
});
