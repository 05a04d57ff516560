import { describe, expect, test } from 'vitest';
import { errorsIn, playedIn, read, remarksIn } from './reading.ts';

/** Two bars of an invented tune; the second is cut by a mail program that allows lines of 27 characters. */
const ROWS = [
  ['A|-0---2---3---5---|-5---3-', '--2---0---|'],
  ['E|-----------------|-------', '----------|'],
  ['C|-----------------|-------', '----------|'],
  ['G|-----------------|-------', '----------|'],
] as const;
/** As the writer sent it: the rhythm is that of a bar of sixteen columns, common practice, no source. */
const PLAYS = '1=1:0 2=1:2 3=1:3 4=1:5 | 1=1:5 2=1:3 3=1:2 4=1:0';

describe('rows that a mail program has cut in the middle', () => {
  test.each<[string, (row: readonly [string, string]) => string]>([
    ['bare', ([head, rest]) => `${head}\n${rest}`],
    ['quoted', ([head, rest]) => `> ${head}\n> ${rest}`],
    ['quoted, the rest without its mark', ([head, rest]) => `> ${head}\n${rest}`],
    ['Windows line ends', ([head, rest]) => `${head}\r\n${rest}`],
    // RFC 2045, 6.7 (5): an equals sign at the end of a line is a soft line break.
    ['quoted-printable', ([head, rest]) => `${head}=\n${rest}`],
    // RFC 2045, 6.7 (1), with the UTF-8 bytes of U+2013.
    ['quoted-printable with long dashes', ([head, rest]) => `${head}${rest}`.replaceAll('-', '=E2=80=93')],
    ['cut twice', ([head, rest]) => `${head.slice(0, 15)}\n${head.slice(15)}\n${rest}`],
    ['cut right behind a bar line', ([head, rest]) => `${head.slice(0, 20)}\n${head.slice(20)}${rest}`],
  ])('%s', (_name, cut) => {
    const text = ROWS.map(cut).join('\n');
    const reading = read(text);
    expect(playedIn(reading)).toBe(PLAYS);
    expect(errorsIn(reading)).toEqual([]);
    expect(reading.told).toEqual([]);
    expect(reading.fates.every((fate) => fate === 'music')).toBe(true);
  });

  test('chords and a count above are cut with them', () => {
    const above = '  C               F       G\n   1   2   3   4     1   2   3   4';
    const whole = `${above}\n${ROWS.map(([head, rest]) => head + rest).join('\n')}`;
    // RFC 5322, 2.1.1, limits lines; here at 27 signs.
    const cut = whole.replace(/^(.{27})(.+)$/gm, '$1\n$2');
    expect(read(cut).text).toBe(read(whole).text);
    expect(playedIn(read(cut))).toBe(PLAYS);
    expect(read(cut).rhythmIsGuess).toBe(false);
  });

  test('rows without names', () => {
    const text = ROWS.map(([head, rest]) => `${head.slice(1)}\n${rest}`).join('\n');
    expect(playedIn(read(text))).toBe(PLAYS);
  });

  test('x2 that has fallen below its row', () => {
    const text = 'A|-0---2---3---5---|\nx2\nE|-----------------|\nC|-----------------|\nG|-----------------|';
    expect(read(text).text).toContain('|: 1');
  });

  test('four rows without names below four with names are a system of their own', () => {
    const text = `${['A', 'E', 'C', 'G'].map((name) => `${name}|-0-2-3-5-`).join('\n')}\n${'--7-5-3-2-\n'.repeat(4)}`;
    expect(playedIn(read(text, { rhythm: 'equal' })).split('\n')).toHaveLength(2);
  });
});

describe('a bar that goes on in the next system', () => {
  const empty = (width: number) => ['E', 'C', 'G'].map((name) => `${name}|${'-'.repeat(width)}`).join('\n');

  test('is one bar where both parts are as wide as the others', () => {
    const text = `A|-0---2---3---5---|-5---3-\n${'E C G'
      .split(' ')
      .map((name) => `${name}|-----------------|-------`)
      .join('\n')}\n\nA|--2---0---|\n${'E C G'
      .split(' ')
      .map((name) => `${name}|----------|`)
      .join('\n')}`;
    const reading = read(text);
    expect(playedIn(reading)).toBe(PLAYS);
    expect(remarksIn(reading)).toContain('Bar 2: it goes on from one line of the text to the next.');
  });

  test('with chords over both parts', () => {
    const above = `  C               F\nA|-0---2---3---5---|-5---3-\n${ROWS.slice(1)
      .map(([head]) => head)
      .join('\n')}`;
    const below = `    G\nA|--2---0---|\n${ROWS.slice(1)
      .map(([head, rest]) => `${head.slice(0, 2)}${rest}`)
      .join('\n')}`;
    const reading = read(`${above}\n\n${below}`);
    expect(reading.text).toMatch(/chord +C +\. +\. +\. +\| +F +\. +G +\./);
  });

  test('where the count goes on', () => {
    const text = `  1 & 2 &\nA|0---2---\n${empty(8)}\n\n  3 & 4 &\nA|3---5---|\n${empty(8).replace(/-$/gm, '-|')}`;
    expect(playedIn(read(text))).toBe('1=1:0 2=1:2 3=1:3 4=1:5');
  });

  test('is told where it may be a whole bar', () => {
    const rest = ROWS.slice(1).map(([head]) => `${head.slice(0, 20)}-------`);
    const text = `A|-0---2---3---5---|-5---3-\n${rest.join('\n')}\n\nA|-2---0---2---0---|\n${rest.map((row) => row.slice(0, 20)).join('\n')}`;
    const reading = read(text);
    const told =
      'Bar 2: its line of the text ends without a bar line, so it may go on in bar 3; it is read as a bar of its own.';
    expect(reading.told).toContain(told);
    expect(remarksIn(reading)).toContain(told);
  });

  test('is none where the writer leaves out the last bar line of a system', () => {
    const system = 'A|-0---2---3---5---|-5---3---2---0---\nE|-----------------|-----------------\n';
    const text = `${system}${system.replace('A', 'C').replace('E', 'G').replaceAll(/\d/g, '-')}`;
    const reading = read(`${text}\n${text}`);
    expect(playedIn(reading)).toBe(`${PLAYS}\n${PLAYS}`);
    expect(reading.told).toEqual([]);
  });
});

describe('rows that do not agree are told, and their text is kept', () => {
  test.each([
    [
      'one is shorter',
      'A|-0---2---3---5---|\nE|-----------------|\nC|----------------|\nG|-----------------|',
      'Bar 1: line 3 (C) is 1 column shorter than the others.',
    ],
    [
      'one is longer',
      'A|-0---2---3---5---|\nE|-------------------|\nC|-----------------|\nG|-----------------|',
      'Bar 1: line 2 (E) is 2 columns longer than the others.',
    ],
    [
      'bar lines at other columns',
      'A|-0-----2---|-3-----5---|\nE|-----------|-----------|\nC|-----------------|-----|\nG|-----------------------|',
      'Bar 1: line 3 (C) has its bar lines at other places than the others.',
    ],
    [
      'a bar line is missing',
      'A|-0-----2---|-3-----5---|\nE|-----------|-----------|\nC|-----------|-----------|\nG|-----------------------|',
      'Bar 1: line 4 (G) has its bar lines at other places than the others (2, not 3).',
    ],
  ])('%s', (_name, text, message) => {
    const reading = read(text);
    expect(reading.told).toContain(message);
    expect(remarksIn(reading)).toEqual(expect.arrayContaining([message, ...text.split('\n')]));
  });
});
