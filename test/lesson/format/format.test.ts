import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inkOf, laidOut, laidOutAtCursor, said } from './formatting.ts';

/** One seed for all: a failure today is the same failure tomorrow. */
const SEED = 20_261_125;

const folder = new URL('../../../client/samples/', import.meta.url);
const samples = readdirSync(folder)
  .filter((file) => file.endsWith('.lesson'))
  .map((file) => ({ file, text: readFileSync(new URL(file, folder), 'utf8') }));

describe('how a lesson is laid out', () => {
  test.each([
    ['header values stand in one column', 'lesson Lamps\nby Ada\nkey   C', 'lesson  Lamps\nby      Ada\nkey     C'],
    ['an empty line begins another column', 'lesson Lamps\n\nkey C', 'lesson  Lamps\n\nkey  C'],
    ['blanks inside a title stay', 'lesson One  and  two', 'lesson  One  and  two'],
    [
      'chord lines in three columns',
      'chord Em 0-4-3-2 fingers 0-3-2-1\nchord D(add9)   7-6-0-0',
      'chord  Em       0-4-3-2  fingers 0-3-2-1\nchord  D(add9)  7-6-0-0',
    ],
    [
      'bars under each other',
      'progression v\n | Em | C / / G |\n |: Am7 | D :|',
      'progression  v\n  |  Em  | C / / G |\n  |: Am7 | D       :|',
    ],
    [
      'columns of a grid',
      'pattern r\n count 1 & 2 &\n pick 4p+1m . 3p 1m',
      'pattern  r\n  count  1      &  2   &\n  pick   4p+1m  .  3p  1m',
    ],
    ['a sound that goes on is a full stop', 'pattern r\n  strum D - - U', 'pattern  r\n  strum  D  .  .  U'],
    [
      'but not in a count or a syllable',
      'pattern r\n  count 1-2 3-4\n  words Lan- tern-',
      'pattern  r\n  count  1-2   3-4\n  words  Lan-  tern-',
    ],
    [
      'a label of two words',
      'pattern r\n  count 1 2\n  pick 1 2\n  pick 2 4 .',
      'pattern  r\n  count   1  2\n  pick    1  2\n  pick 2  4  .',
    ],
    ['a row for one chord', 'pattern r\n  count 1 2\n  pick C 4 .', 'pattern  r\n  count   1  2\n  pick C  4  .'],
    [
      'signs in a count',
      'pattern r\n  count |: 1 2 :| x3\n  strum D U',
      'pattern  r\n  count  |: 1  2  :| x3\n  strum     D  U',
    ],
    [
      'another meter in a count',
      'pattern r\n  count 1 2 | 1st 3/4 1 2 3 | 2/4 1 2\n  strum D U D U U D U',
      'pattern  r\n  count  1  2  | 1st 3/4 1  2  3  | 2/4 1  2\n  strum  D  U            D  U  U        D  U',
    ],
    [
      'exercise keywords in one column',
      'exercise Two  hands\n play v\n minutes 5\n at bar 4  r',
      'exercise  Two  hands\n  play      v\n  minutes   5\n  at bar 4  r',
    ],
    [
      'verses in one column',
      'progression v\n  | C | D |\n  words la | la\n  words 2 lo | lo',
      'progression  v\n  | C | D |\n  words    la | la\n  words 2  lo | lo',
    ],
    ['keywords in lower case', 'Key C\nPattern r\n  Strum D', 'key  C\npattern  r\n  strum  D'],
    [
      'remarks and prose at their step',
      'pattern r\n      // mine\n    > Softly.\n  strum D',
      'pattern  r\n  // mine\n  > Softly.\n  strum  D',
    ],
    ['nothing behind the last word', 'key C   \n   \n> A.  ', 'key  C\n\n> A.'],
    ['a tab is a blank', 'pattern r\n\tstrum\tD\tU', 'pattern  r\n  strum  D  U'],
    ['an unknown line keeps its words', 'patern  r\n  strum  D', 'patern  r\n  strum  D'],
    ['lists keep their commas', 'exercise e\n  over C,F ,  G', 'exercise  e\n  over  C, F, G'],
  ])('%s', (_name, before, after) => {
    expect(laidOut(before)).toBe(after);
    expect(laidOut(after)).toBe(after);
  });

  test('only the statement at the cursor, with the lines that share its columns', () => {
    expect(laidOutAtCursor('key  C\npattern r\n strum D$0\npattern q\n strum D')).toBe(
      'key  C\npattern  r\n  strum  D\npattern q\n strum D',
    );
    expect(laidOutAtCursor('chord C 0-0-0-3\nchord G7$0 0-2-1-2\n\nkey C')).toBe(
      'chord  C   0-0-0-3\nchord  G7  0-2-1-2\n\nkey C',
    );
  });

  test('G-6 must: line ends stay what they are, mixed ones too', () => {
    expect(laidOut('key C\r\nmeter 3/4\r\n\r\npattern r\r\n strum D\n strum U\rpage')).toBe(
      'key    C\r\nmeter  3/4\r\n\r\npattern  r\r\n  strum  D\n  strum  U\rpage',
    );
  });

  test('G-5 must: a byte-order mark stays where it is', () => {
    expect(laidOut('\ufefflesson Lamps\nkey C')).toBe('\ufefflesson  Lamps\nkey     C');
    expect(laidOut('\ufeff> Hello. ')).toBe('\ufeff> Hello.');
  });

  test('signs of other keyboards stay as typed', () => {
    expect(laidOut('chord B♭ 3–2–1–1')).toBe('chord  B♭  3–2–1–1');
    expect(laidOut('lesson “Lamps”')).toBe('lesson  “Lamps”');
  });
});

describe('layout changes nothing that is said', () => {
  test.each(samples)('$file', ({ text }) => {
    const once = laidOut(text);
    expect(said(once)).toEqual(said(text));
    expect(laidOut(once)).toBe(once);
    expect(inkOf(once)).toBe(inkOf(text));
    expect(once.match(/^\s*(\/\/|>).*$/gm)?.map((line) => line.trim())).toEqual(
      text.match(/^\s*(\/\/|>).*$/gm)?.map((line) => line.trim()),
    );
  });

  test.each(samples)('$file with Windows line ends', ({ text }) => {
    expect(laidOut(text.replace(/\n/g, '\r\n'))).toBe(laidOut(text).replace(/\n/g, '\r\n'));
  });

  const PIECES = [
    '',
    ' ',
    '\n',
    '\n  ',
    '\t',
    '|',
    ':|',
    '-',
    '.',
    ',',
    'x',
    '> ',
    '//',
    '4p',
    '1st',
    'D',
    'U-',
    '@Em',
    'Pick',
    '♭',
    '\r\n',
  ];
  const change = fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    gone: fc.constantFrom(0, 0, 1, 2, 9),
    text: fc.constantFrom(...PIECES),
  });

  test('any lesson with slips keeps its ink and what it says, and laying it out twice is laying it out once', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...samples.map(({ text }) => text)),
        fc.array(change, { minLength: 1, maxLength: 12 }),
        (whole, changes) => {
          const text = changes.reduce((slipped, { at, gone, text: piece }) => {
            const start = Math.floor(at * slipped.length);
            return slipped.slice(0, start) + piece + slipped.slice(start + gone);
          }, whole);
          const once = laidOut(text);
          expect(inkOf(once)).toBe(inkOf(text));
          expect(laidOut(once)).toBe(once);
          expect(said(once)).toEqual(said(text));
        },
      ),
      { seed: SEED, numRuns: 25 },
    );
  });
});
