import { describe, expect, test } from 'vitest';
import { changed, changes, fixedBy, ghostWritten, labels, lineWith } from './asking.ts';

// The order of shapes is the finder's and has tests of its own; here the order is asked for, not written down.
const EM = labels('chord Em $0');
const [first = '', second = '', third = ''] = EM;

describe('an assumed shape is written down', () => {
  const WRITE = `Write “chord Em ${first}” into the lesson`;
  const withBars = 'lesson L\n\nchord  C     0-0-0-3\nchord  Am    2-0-0-0\n\nprogression v\n  | C | Em |\n';
  const written = withBars.replace('2-0-0-0\n', `2-0-0-0\nchord  Em    ${first}\n`);

  test.each([
    ['in a bar', withBars.replace('| Em', '| E$0m')],
    ['in front of it', withBars.replace('| Em', '| $0Em')],
    ['behind it', withBars.replace('| Em', '| Em$0')],
  ])('%s', (_name, marked) => {
    expect(changes(marked)).toContain(WRITE);
    expect(changed(marked, 'write')).toBe(written);
  });

  const uses = (use: string): string => `${withBars}${use}`;
  test.each([
    ['a mention', '> Now @E$0m.\n'],
    ['a row of a grid', 'pattern p\n  count 1 2\n  pick E$0m 4 3\n'],
    ['a change in a grid', 'pattern p\n  strum D D D D\n  chord . . . E$0m\n'],
    ['a row of tune', 'melody m\n  E$0m 1:2 . . .\n'],
    ['a list', 'exercise e\n  over E$0m, C\n'],
    ['what is shown', 'show E$0m\n'],
    ['what a family keeps', 'family f\n  from v\n  keep E$0m\n'],
  ])('from %s', (_name, use) => {
    expect(changes(uses(use))).toContain(WRITE);
    expect(changed(uses(use), 'write')).toBe(uses(use).replace('$0', '').replace(withBars, written));
  });

  test('on a line that has the name alone, behind the name', () => {
    expect(changed('chord E$0m\n', 'write')).toBe(`chord Em  ${first}\n`);
  });

  test('in the columns and with the line ends of the lines above', () => {
    expect(changed('chord C 0-0-0-3\r\nprogression v\r\n  | E$0m |\r\n', 'write')).toBe(
      `chord C 0-0-0-3\r\nchord Em ${first}\r\nprogression v\r\n  | Em |\r\n`,
    );
    expect(changed('progression v\n  | E$0m |\nchord C 0-0-0-3', 'write')).toBe(
      `progression v\n  | Em |\nchord C 0-0-0-3\nchord Em ${first}`,
    );
  });

  test('columns that stood under each other move with the new line, in one edit', () => {
    expect(changed('chord  C  0-0-0-3\nchord  F  2-0-1-0\nprogression  v\n  | C | E$0m |\n', 'write')).toBe(
      `chord  C   0-0-0-3\nchord  F   2-0-1-0\nchord  Em  ${first}\nprogression  v\n  | C | Em |\n`,
    );
  });

  test('below the nearest run of chord lines above, else below the first run further down', () => {
    const twoWeeks = 'chord C 0-0-0-3\npart Two\nchord F 2-0-1-0\n// F is hard.\nshow F\n';
    expect(changed(`${twoWeeks}show E$0m\n`, 'write')).toBe(
      twoWeeks.replace('2-0-1-0\n', `2-0-1-0\nchord Em ${first}\n`).concat('show Em\n'),
    );
    expect(changed('show E$0m\nchord C 0-0-0-3\nchord F 2-0-1-0\npart Two\nchord G 0-2-3-2\n', 'write')).toBe(
      `show Em\nchord C 0-0-0-3\nchord F 2-0-1-0\nchord Em ${first}\npart Two\nchord G 0-2-3-2\n`,
    );
  });

  test('where no chord line is, above the first progression that uses the chord and above the remark on it', () => {
    expect(changed('\ufeffkey G\n\n// The verse.\nprogression v\n  | Em |\n\n> Hold @E$0m.\n', 'write')).toBe(
      `\ufeffkey G\n\nchord  Em  ${first}\n\n// The verse.\nprogression v\n  | Em |\n\n> Hold @Em.\n`,
    );
    expect(changed('\ufeffshow E$0m', 'write')).toBe(`\ufeffchord  Em  ${first}\nshow Em`);
  });

  test('the quick fix of the hint and the ghost text write the same', () => {
    expect(fixedBy(withBars, 'chord.assumed')).toEqual([written]);
    expect(ghostWritten(withBars)).toEqual([[WRITE, written]]);
  });

  test('a count that is only implied is written above its row', () => {
    expect(ghostWritten('pattern r\n    strum D D D D\n')).toEqual([
      ['Write “count 1 2 3 4” into the lesson', 'pattern r\n    count  1 2 3 4\n    strum D D D D\n'],
    ]);
  });

  test.each([
    'chord E$0m 0-4-3-2',
    'chord Em 0-4-3-2\nshow E$0m',
    'show rol$0l',
    '> E$0m',
    'progression v\n  | N$0C |',
  ])('not where there is nothing to write: %s', (marked) =>
    expect(changes(marked).filter((title) => title.startsWith('Write'))).toEqual([]),
  );
});

describe('the next shape and the one before', () => {
  test.each([
    ['on the name', `chord E$0m ${first}`],
    ['on the frets', `chord Em ${first.slice(0, 2)}$0${first.slice(2)}`],
  ])('%s', (_name, marked) => {
    expect(changes(marked)[0]).toBe(`Em: next shape, ${second} (2 of 12)`);
    expect(changed(marked, 'next')).toBe(`chord Em ${second}`);
  });

  test('goes round the first twelve, and says which one it is', () => {
    let text = `chord E$0m ${first}`;
    const seen: string[] = [];
    for (let step = 0; step < 12; step++) {
      text = changed(text, 'next').replace('Em', 'E$0m');
      seen.push(text.replace('chord E$0m ', ''));
    }
    expect(new Set(seen).size).toBe(12);
    expect(seen.at(-1)).toBe(first);
    expect(changed(`chord E$0m ${first}`, 'previous')).toBe(`chord Em ${seen.at(-2)}`);
    expect(changed(`chord E$0m ${second}`, 'previous')).toBe(`chord Em ${first}`);
  });

  test('a shape of the teacher’s own comes before the first one', () => {
    // Every string at fret 12 sounds G C E A, which is no E minor.
    expect(changed('chord E$0m 12-12-12-12', 'next')).toBe(`chord Em ${first}`);
  });

  test('from any use, on the line of the chord', () => {
    const lesson = `chord Em ${first} fingers 0-3-2-1\nchord C 0-0-0-3\nprogression v\n  | E$0m | C |\n`;
    expect(changed(lesson, 'next')).toBe(lesson.replace('$0', '').replace(`${first} fingers 0-3-2-1`, second));
    expect(changed(`chord Em ${first}\n> Hold @E$0m.\n`, 'next')).toBe(`chord Em ${second}\n> Hold @Em.\n`);
  });

  test('an assumed shape gets a line with the next one', () => {
    expect(changed('chord C 0-0-0-3\nshow E$0m\n', 'next')).toBe(`chord C 0-0-0-3\nchord Em ${second}\nshow Em\n`);
  });

  test('a labelled chord has its own line, and passes over the shapes of the other labels', () => {
    const lesson = `chord Em ${first}\nchord Em.high ${third}\nprogression v\n  | Em | Em.high |\n`;
    expect(changes(lesson.replace('| Em.high', '| Em.hi$0gh'))[0]).toMatch(/^Em\.high: next shape, /);
    expect(changed(lesson.replace('| Em.high', '| Em.hi$0gh'), 'previous')).toBe(lesson.replace(third, second));
    // From the second the plain name goes on past the third, which the label has.
    const onSecond = lesson.replace(`Em ${first}`, `E$0m ${second}`);
    expect(changed(onSecond, 'next')).toBe(onSecond.replace('$0', '').replace(second, EM[3] ?? ''));
  });

  test('a plain name that means a labelled line changes that line', () => {
    expect(changed(`chord Em.low ${first}\nshow E$0m\n`, 'next')).toBe(`chord Em.low ${second}\nshow Em\n`);
  });

  test('above a capo the shapes are those of the hand', () => {
    expect(changes(`for tenor ukulele, capo 2\nchord E$0m ${first}`)[0]).toBe(`Em: next shape, ${second} (2 of 12)`);
  });

  test.each(['chord Q.x$0 0-0-0-0', 'chord rol$0l 0-0-0-0', '$0', '// Em$0', 'key E$0 minor'])('none: %s', (marked) =>
    expect(changes(marked)).toEqual([]),
  );
});

describe('on an edition', () => {
  const LESSON =
    'also baritone ukulele, same key, called bari\nchord G 0-2-3-2\nedition bari\n  chord G 0-0-0-3\n  melody m\n    G 1:3 . . .\n    C 1:0 . . .\n';
  const onBari = (chord: string): readonly string[] => labels(`for baritone ukulele\nchord ${chord} $0`);

  test('its own chord line changes, by the shapes of its instrument', () => {
    const next = onBari('G').find((shape) => shape !== '0-0-0-3') ?? '';
    expect(onBari('G')[0]).toBe('0-0-0-3');
    expect(changed(LESSON.replace('  chord G', '  chord $0G'), 'next')).toBe(LESSON.replace('0-0-0-3', next));
    expect(changed(LESSON.replace('    G 1', '    $0G 1'), 'next')).toBe(LESSON.replace('0-0-0-3', next));
  });

  test('what it assumes is written into its block', () => {
    const usual = onBari('C')[0] ?? '';
    expect(changed(LESSON.replace('    C 1', '    $0C 1'), 'write')).toBe(
      LESSON.replace('0-0-0-3\n', `0-0-0-3\n  chord C ${usual}\n`),
    );
    const without = LESSON.replace('  chord G 0-0-0-3\n', '');
    expect(changed(without.replace('    C 1', '    $0C 1'), 'write')).toBe(
      without.replace('edition bari\n', `edition bari\n  chord  C  ${usual}\n`),
    );
  });

  test('the lesson’s own line is left alone: the edition with the same shapes gets one of its own', () => {
    const lesson =
      'also baritone ukulele, same shapes, called bari\nchord C 0-0-0-3\nedition bari\n  melody m\n    C 1:0 . . .\n';
    // 0-0-0-3 on the baritone is a G: five semitones lower than C, a fourth. Source: the tunings D3 G3 B3 E4 and G4 C4 E4 A4.
    expect(changes(lesson.replace('    C 1', '    $0C 1'))[0]).toMatch(/^C: next shape, /);
    expect(changed(lesson.replace('    C 1', '    $0C 1'), 'next')).toContain(
      `chord C 0-0-0-3\nedition bari\n  chord  C as G  ${onBari('G')[1]}\n`,
    );
  });
});

describe('fingers that are written', () => {
  test.each([
    // A diminished seventh sounds the same chord three frets on. Source: it divides the octave evenly.
    ['stay where the shape only moves along the neck', '2-3-2-3', '5-6-5-6', 'chord Cdim7 5-6-5-6 fingers 1-2-1-3'],
    ['go where another string is stopped', '2-3-2-3', '5-3-2-3', 'chord Cdim7 5-3-2-3'],
    ['go where a string is open', '2-3-2-3', '0-1-0-1', 'chord Cdim7 0-1-0-1'],
    ['go where a string is silent', '2-3-2-3', 'x-6-5-6', 'chord Cdim7 x-6-5-6'],
  ])('%s', (_name, from, to, line) => expect(lineWith(`chord Cdim7 ${from} fingers 1-2-1-3`, to)).toBe(line));
});
