import { describe, expect, test } from 'vitest';
import { rhythmOf } from '../../shared/score/rhythm.ts';
import { beatLength } from '../../shared/theory/meter.ts';
import { rational } from '../../shared/theory/rational.ts';
import { barsOf, chordsIn, milliseconds, played, scoreOf, timesIn } from './scoring.ts';

const SHAPES = 'chord C 0-0-0-3\nchord Am 2-0-0-0\nchord F 2-0-1-0\nchord G7 0-2-1-2\n';
const ROLL = 'pattern roll\n  count 1 2 3 4\n  pick 4 3 2 1\n';
const TWO = 'pattern two\n  count 1 2\n  pick 4 1\n';
const THREE = 'pattern three\n  count 1 2 3\n  pick 4 3 2\n';

function lesson(bars: string, ...exercise: readonly string[]): string {
  return `${SHAPES}${ROLL}${TWO}${THREE}progression v\n  ${bars}\nexercise e\n  play v\n  ${exercise.join('\n  ')}`;
}

describe('patterns fill the bars', () => {
  test.each([
    ['one bar each', lesson('| C | F |', 'with roll'), ['0 4:0, 1 3:0, 2 2:0, 3 1:3', '0 4:2, 1 3:0, 2 2:1, 3 1:0']],
    ['a short pattern comes again', lesson('| C |', 'with two'), ['0 4:0, 1 1:3, 2 4:0, 3 1:3']],
    [
      'C-7 should: a pattern runs on under a change of chord',
      lesson('| C F |', 'with roll'),
      ['0 4:0, 1 3:0, 2 2:1, 3 1:0'],
    ],
    [
      'a pattern of three counts runs over the bar line',
      lesson('| C | F |', 'with three'),
      ['0 4:0, 1 3:0, 2 2:0, 3 4:0', '0 3:0, 1 2:1, 2 4:2, 3 3:0'],
    ],
    [
      'one after another, from the first again at the end',
      lesson('| C | C | C |', 'with two x2, roll'),
      ['0 4:0, 1 1:3, 2 4:0, 3 1:3', '0 4:0, 1 3:0, 2 2:0, 3 1:3', '0 4:0, 1 1:3, 2 4:0, 3 1:3'],
    ],
    ['restart chord', lesson('| C F |', 'with roll', 'restart chord'), ['0 4:0, 1 3:0, 2 4:2, 3 3:0']],
    [
      'restart bar',
      lesson('| C | F |', 'with three', 'restart bar'),
      ['0 4:0, 1 3:0, 2 2:0, 3 4:0', '0 4:2, 1 3:0, 2 2:1, 3 4:2'],
    ],
    [
      'at bar puts another pattern into one bar',
      lesson('| C | C | C |', 'with roll', 'at bar 2 two'),
      ['0 4:0, 1 3:0, 2 2:0, 3 1:3', '0 4:0, 1 1:3, 2 4:0, 3 1:3', '0 4:0, 1 3:0, 2 2:0, 3 1:3'],
    ],
    [
      'what runs on through a replaced bar goes on behind it',
      lesson('| C | C | C |', 'with three', 'at bar 2 roll'),
      ['0 4:0, 1 3:0, 2 2:0, 3 4:0', '0 4:0, 1 3:0, 2 2:0, 3 1:3', '0 2:0, 1 4:0, 2 3:0, 3 2:0'],
    ],
    [
      'at an ending',
      lesson('|: C | 1st C :| 2nd C ||', 'with roll', 'at 2nd two'),
      ['0 4:0, 1 3:0, 2 2:0, 3 1:3', '0 4:0, 1 3:0, 2 2:0, 3 1:3', '0 4:0, 1 1:3, 2 4:0, 3 1:3'],
    ],
    ['an unknown pattern is left out', lesson('| C |', 'with nothing'), ['']],
    ['a progression without patterns', lesson('| C |', 'tempo 60'), ['']],
  ])('%s', (_name, text, bars) => expect(played(text)).toEqual(bars));

  test('a second with line is the second time through', () => {
    const text = lesson('| C |', 'with roll', 'with two');
    expect(scoreOf(text).passes.map(({ number, with: names }) => [number, names])).toEqual([
      [1, ['roll']],
      [2, ['two']],
    ]);
    expect(played(text, 1)).toEqual(['0 4:0, 1 1:3, 2 4:0, 3 1:3']);
  });

  test('one with line alone has no number', () =>
    expect(scoreOf(lesson('| C |', 'with roll')).passes[0]?.number).toBeUndefined());

  test('F-2 should: a change in the pattern is a change in every use', () => {
    const text = lesson('| C | Am | F | G7 |', 'with roll');
    expect(played(text).map((bar) => bar.split(', ').length)).toEqual([4, 4, 4, 4]);
    expect(played(text.replace('pick 4 3 2 1', 'pick 4 3 2+1 .')).map((bar) => bar.split(', ')[2])).toEqual([
      '2 2:0+1:3',
      '2 2:0+1:0',
      '2 2:1+1:0',
      '2 2:1+1:2',
    ]);
  });

  test('C-18 must: p i m a on C are strings 4 3 2 1, twice in a bar of eighths', () => {
    const text = `${SHAPES}pattern q\n  count 1 & 2 &\n  pick p i m a\nexercise e\n  over C\n  each q x2`;
    // Each turn of an each list has a bar of its own.
    expect(played(text)).toEqual(['0 4:0, 1/2 3:0, 1 2:0, 3/2 1:3', '0 4:0, 1/2 3:0, 1 2:0, 3/2 1:3']);
    const filled = `${SHAPES}pattern q\n  count 1 & 2 &\n  pick p i m a\nprogression v\n  | C |\nexercise e\n  play v\n  with q`;
    expect(played(filled)).toEqual(['0 4:0, 1/2 3:0, 1 2:0, 3/2 1:3, 2 4:0, 5/2 3:0, 3 2:0, 7/2 1:3']);
  });
});

describe('two at once', () => {
  const tune = 'melody tune\n  count 1-2 3-4\n  tune 1:5 1:7\n';
  test('roll + tune', () => {
    const text = `${tune}${lesson('| C |', 'with roll + tune')}`;
    expect(played(text)).toEqual(['0 4:0, 0 1:5, 1 3:0, 2 2:0, 2 1:7']);
    expect(scoreOf(text)).toMatchObject({ hasTune: true, passes: [{ with: ['roll + tune'] }] });
  });

  test('the turn lasts as long as the longer of the two', () => {
    expect(played(`${tune}${lesson('| C | C |', 'with two + tune')}`)).toEqual([
      '0 4:0, 0 1:5, 2 1:7',
      '0 4:0, 0 1:5, 2 1:7',
    ]);
  });
});

describe('over … each', () => {
  test('every chord gets the sequence, in bars of its own, numbered through', () => {
    const text = `${SHAPES}${ROLL}${THREE}exercise e\n  over C, F\n  each roll, three`;
    expect(played(text)).toEqual([
      '0 4:0, 1 3:0, 2 2:0, 3 1:3',
      '0 4:0, 1 3:0, 2 2:0',
      '0 4:2, 1 3:0, 2 2:1, 3 1:0',
      '0 4:2, 1 3:0, 2 2:1',
    ]);
    expect(barsOf(text).map(({ number }) => number)).toEqual([1, 2, 3, 4]);
    expect(chordsIn(barsOf(text))).toEqual(['0 C', '0 C', '0 F', '0 F']);
  });

  test('a progression’s chords, whatever their length in it', () => {
    const text = `${SHAPES}${ROLL}progression v\n  | C Am | F |\nexercise e\n  over v\n  each roll`;
    expect(chordsIn(barsOf(text))).toEqual(['0 C', '0 Am', '0 F']);
  });

  test('a pattern of two bars takes two', () => {
    const text = `${SHAPES}pattern long\n  count 1 2 3 4 | 1 2 3 4\n  pick 4 . . . 3 . . .\nexercise e\n  over C\n  each long`;
    expect(timesIn(text)).toEqual(['0+4', '0+4']);
    expect(chordsIn(barsOf(text))).toEqual(['0 C', '']);
  });

  test('times: over C x2, each roll x2', () => {
    expect(barsOf(`${SHAPES}${ROLL}exercise e\n  over C x2\n  each roll x2`)).toHaveLength(4);
  });
});

describe('counts that split', () => {
  const one = (pattern: string, header = ''): string =>
    `${header}${SHAPES}pattern q\n  ${pattern}\nexercise e\n  over C\n  each q`;

  test.each([
    ['halves', one('count 1 & 2 3 4\n  strum D U D D D'), '0+1/2 1/2+1/2 1+1 2+1 3+1'],
    [
      'quarters of a count',
      one('count 1 e & a 2 3 4\n  strum D U D U D D D'),
      '0+1/4 1/4+1/4 1/2+1/4 3/4+1/4 1+1 2+1 3+1',
    ],
    [
      'C-10 should: two downs and an up in one beat',
      one('count 1 la li 2 3 4\n  strum D D U D D D'),
      '0+1/3 1/3+1/3 2/3+1/3 1+1 2+1 3+1',
    ],
    [
      'C-4 must: a long and a short third are one beat',
      one('count 1 la li 2 3 4\n  strum D . U D D D'),
      '0+2/3 2/3+1/3 1+1 2+1 3+1',
    ],
    ['two counts in three', one('count 1-2 la li 3 4\n  strum D D D D D'), '0+2/3 2/3+2/3 4/3+2/3 2+1 3+1'],
    ['6/8 in six', one('count 1 2 3 4 5 6\n  strum D . U D . U', 'meter 6/8\n'), '0+1 1+1/2 3/2+1 5/2+1/2'],
    ['6/8 in two with thirds', one('count 1 & a 2 & a\n  strum D . U D . U', 'meter 6/8\n'), '0+1 1+1/2 3/2+1 5/2+1/2'],
    ['two against three', one('count 1-3 & 4-6 &\n  strum D U D U', 'meter 6/8\n'), '0+3/4 3/4+3/4 3/2+3/4 9/4+3/4'],
    [
      '12/8 in twelve',
      one('count 1 2 3 4 5 6 7 8 9 10 11 12\n  strum D . U D . U D . U D . U', 'meter 12/8\n'),
      '0+1 1+1/2 3/2+1 5/2+1/2 3+1 4+1/2 9/2+1 11/2+1/2',
    ],
    ['12/8 in four', one('count 1 2 3 4\n  strum D D D D', 'meter 12/8\n'), '0+3/2 3/2+3/2 3+3/2 9/2+3/2'],
    ['no count: four to a bar', one('strum D D D D'), '0+1 1+1 2+1 3+1'],
    [
      'no count: six to a bar of 6/8',
      one('strum D D D D D D', 'meter 6/8\n'),
      '0+1/2 1/2+1/2 1+1/2 3/2+1/2 2+1/2 5/2+1/2',
    ],
    [
      'C-6 must: six strokes in eight half beats, the fifth held',
      one('count 1 & 2 & 3 & 4 &\n  strum D . D U . U D U'),
      '0+1 1+1/2 3/2+1 5/2+1/2 3+1/2 7/2+1/2',
    ],
  ])('%s', (_name, text, expected) => expect(timesIn(text)).toEqual([expected]));

  test('C-5 must: at 60 dotted quarters an eighth of 6/8 lasts 333 ms', () => {
    const [bar] = barsOf(one('count 1 2 3 4 5 6\n  strum D U D U D U', 'meter 6/8\n'));
    const beat = beatLength({ counts: 6, unit: 8 });
    expect(beat).toEqual(rational(3, 8));
    expect(milliseconds(bar?.events[0]?.length ?? rational(0), beat, 60)).toBeCloseTo(1000 / 3, 6);
    expect(beatLength({ counts: 3, unit: 4 })).toEqual(rational(1, 4));
  });

  test('what is said stands over its column', () => {
    const [bar] = barsOf(one('count 1 & 2 3 4\n  strum D U D D D'));
    expect(bar?.counts.map(({ text }) => text).join(' ')).toBe('1 & 2 3 4');
  });
});

describe('silence, damping and ringing on', () => {
  const one = (rows: string): string =>
    `${SHAPES}chord X x-0-0-3\npattern q\n  count 1 2 3 4\n  ${rows}\nexercise e\n  over C\n  each q`;

  test('C-8 should: chunk, damped stroke and silence are three different things', () => {
    const [bar] = barsOf(one('strum chunk Dx stop D'));
    expect(bar?.events.map((event) => event.kind)).toEqual(['chunk', 'strum', 'stop', 'strum']);
    expect(bar?.events[1]).toMatchObject({ damped: true });
    expect(bar?.events[3]).toMatchObject({ damped: false });
  });

  test('C-9 must: a stroke leaves out a muted string, a damped one strikes it', () => {
    const muted = (row: string) =>
      played(one(row).replace('over C', 'over X').replaceAll('chord X ', 'chord C.x ').replace('over X', 'over C.x'));
    expect(muted('strum D U Dx .')).toEqual(['0 D321, 1 U123, 2 D4321']);
    expect(muted('pick 4 3 2 1')).toEqual(['1 3:0, 2 2:0, 3 1:3']);
  });

  test('C-12 must: what goes on is one attack whose times add', () => {
    expect(timesIn(one('pick 1 . . 1'))).toEqual(['0+3 3+1']);
  });

  test('C-13 should: written values stay what the count says, however long a string rings', () => {
    expect(
      timesIn(
        `${SHAPES}pattern q\n  count 1 & 2 & 3 & 4 &\n  ring all\n  pick 4 3 2 1 4 3 2 1\nexercise e\n  over C\n  each q`,
      ),
    ).toEqual(['0+1/2 1/2+1/2 1+1/2 3/2+1/2 2+1/2 5/2+1/2 3+1/2 7/2+1/2']);
  });

  test('a sound over the bar line goes on as held, a stroke too, but for a damped one', () => {
    const tie = (row: string) =>
      `${SHAPES}melody q\n  count 1 2 3 4 | 1 2 3 4\n  ${row}\nprogression v\n  | C | C |\nexercise e\n  play v\n  with q`;
    expect(played(tie('tune . . . 1:5 . . 1:3 .'))).toEqual(['3 1:5', '0 held, 2 1:3']);
    expect(timesIn(tie('tune . . . 1:5 . . 1:3 .'))).toEqual(['3+1', '0+2 2+2']);
    expect(played(tie('strum . . . D . . D .'))).toEqual(['3 D4321', '0 held, 2 D4321']);
    expect(played(tie('strum . . . Dx . . D .'))).toEqual(['3 D4321', '2 D4321']);
    expect(played(tie('hit . . . palm . . body .'))).toEqual(['3 palm', '2 body']);
  });

  test('a sound over two bar lines', () => {
    const text = `${SHAPES}melody q\n  count 1 2 3 4 | 1 2 3 4 | 1 2 3 4\n  tune . . . 1:5 . . . . . . 1:3 .\nprogression v\n  | C | C | C |\nexercise e\n  play v\n  with q`;
    expect(timesIn(text)).toEqual(['3+1', '0+4', '0+2 2+2']);
  });
});

describe('the thumb finds the root', () => {
  const wheels = 'pattern w\n  count 1 2 3 4\n  pick Rp . Ap .\n';
  test.each([
    // On four strings the bass strings are 4 and 3. With a high G the C of the C chord is string 3.
    ['high G, C', '', 'C 0-0-0-3', '0 3:0, 2 4:0'],
    ['high G, G', '', 'G 0-2-3-2', '0 4:0, 2 3:2'],
    ['low G, C', 'for tenor ukulele, low G\n', 'C 0-0-0-3', '0 3:0, 2 4:0'],
    ['guitar, G', 'for guitar\n', 'G 3-2-0-0-0-3', '0 6:3, 2 5:2'],
    ['guitar, C', 'for guitar\n', 'C x-3-2-0-1-0', '0 5:3, 2 4:2'],
    // One bass string sounds, or none: the thumb plays what there is, and misses no beat. Common practice, no source.
    ['guitar, D', 'for guitar\n', 'D x-x-0-2-3-2', '0 4:0, 2 4:0'],
    ['high G, Cm', '', 'Cm x-3-3-3', '0 3:3, 2 3:3'],
    ['guitar, D7 on three strings', 'for guitar\n', 'D7 x-x-x-2-1-2', '0 3:2, 2 3:2'],
    ['guitar, D over F#', 'for guitar\n', 'D/F# 2-x-0-2-3-2', '0 6:2, 2 4:0'],
    ['guitar with a capo, G', 'for guitar, capo 2\n', 'G 3-2-0-0-0-3', '0 6:3, 2 5:2'],
  ])('%s', (_name, header, line, expected) => {
    const [name] = line.split(' ');
    expect(played(`${header}chord ${line}\n${wheels}exercise e\n  over ${name}\n  each w`)).toEqual([expected]);
  });

  test('plant sends a finger to another string', () => {
    expect(played(`${SHAPES}pattern w\n  plant p3 i4\n  pick p i m a\nexercise e\n  over C\n  each w`)).toEqual([
      '0 3:0, 1 4:0, 2 2:0, 3 1:3',
    ]);
  });
});

describe('rows for one chord, chord rows, fingers', () => {
  test('a pick row for one chord replaces the row for any over that chord only', () => {
    const text = `${SHAPES}pattern q\n  count 1 2 3 4\n  pick 4 3 2 1\n  pick F 3 4 1 2\nprogression v\n  | C | F |\nexercise e\n  play v\n  with q`;
    expect(played(text)).toEqual(['0 4:0, 1 3:0, 2 2:0, 3 1:3', '0 3:0, 1 4:2, 2 1:0, 3 2:1']);
  });

  test('a tune row over its chord only', () => {
    const text = `${SHAPES}melody m\n  count 1 2 3 4\n  C 1:3 . 1:0 .\n  F 2:1 . 1:0 .\nprogression v\n  | C | F | Am |\nexercise e\n  play v\n  with m`;
    expect(played(text)).toEqual(['0 1:3, 2 1:0', '0 2:1, 2 1:0', '']);
  });

  test('a push: the new chord comes ahead of the bar line', () => {
    const text = `${SHAPES}pattern push\n  count 1 & 2 & 3 & 4 &\n  pick 1 1 1 1 1 1 1 1\n  chord . . . . . . . F\nprogression v\n  | C | F |\nexercise e\n  play v\n  with push`;
    expect(played(text)[0]).toBe('0 1:3, 1/2 1:3, 1 1:3, 3/2 1:3, 2 1:3, 5/2 1:3, 3 1:3, 7/2 1:0');
  });

  test('left-hand fingers belong to the row above', () => {
    const text = `${SHAPES}melody m\n  count 1 2 3 4\n  tune 1:3 1:5 1:3 1:0\n  fingers 1 3 1 .\n  pick 4 . 4 .\nexercise e\n  over C\n  each m`;
    const [bar] = barsOf(text);
    const fingers = bar?.events.flatMap((event) =>
      event.kind === 'notes' ? event.notes.map(({ leftFinger }) => leftFinger) : [],
    );
    expect(fingers).toEqual([1, undefined, 3, 1, undefined, undefined]);
  });

  test('a timed hammer-on is a note that arrives from the one before', () => {
    const text = `${SHAPES}melody m\n  count 1 2 3 4\n  tune 1:5 h7 p5 .\nexercise e\n  over C\n  each m`;
    expect(played(text)).toEqual(['0 1:5, 1 ~1:7, 2 ~1:5']);
  });

  test('C-16 must: a fret of two figures is one note in one column', () => {
    const text = `${SHAPES}melody m\n  count 1 2 3 4\n  tune 1:8 1:10 1:12 .\n  pick 4:8 . . .\nexercise e\n  over C\n  each m`;
    expect(played(text)).toEqual(['0 1:8, 0 4:8, 1 1:10, 2 1:12']);
  });

  test('a quick hammer-on takes no time: one attack', () => {
    const text = `${SHAPES}melody m\n  count 1 2 3 4\n  tune 1:5h7 . 1:7p5 .\nexercise e\n  over C\n  each m`;
    expect(timesIn(text)).toEqual(['0+2 2+2']);
  });

  test('like takes rows over, = keeps single marks', () => {
    const text = `${SHAPES}${ROLL}pattern q\n  like roll\n  pick = = . stop\nexercise e\n  over C\n  each q`;
    expect(played(text)).toEqual(['0 4:0, 1 3:0, 3 stop']);
  });

  test('a row that comes again starts the next line of music', () => {
    const text = `${SHAPES}pattern q\n  count 1 2 3 4\n  strum D D D D\n  strum U . U .\nprogression v\n  | C | C |\nexercise e\n  play v\n  with q`;
    expect(played(text)).toEqual(['0 D4321, 1 D4321, 2 D4321, 3 D4321', '0 U1234, 2 U1234']);
  });

  test('words and calls of a pattern stand at their columns', () => {
    const text = `${SHAPES}pattern q\n  count 1 2 3 4\n  strum D D D D\n  words Lan- . terns .\n  say down . up .\nexercise e\n  over C\n  each q`;
    const [bar] = barsOf(text);
    expect(bar?.syllables.map((syllable) => syllable.text)).toEqual(['Lan-', 'terns']);
    expect(bar?.calls.map((call) => call.text)).toEqual(['down', 'up']);
  });

  test('a hit on its place', () => {
    expect(played(`${SHAPES}pattern q\n  hit thumb thumb3 body palm\nexercise e\n  over C\n  each q`)).toEqual([
      '0 thumb4, 1 thumb3, 2 body, 3 palm',
    ]);
  });

  test('part of the strings, in the order that the stroke meets them', () => {
    expect(played(`${SHAPES}pattern q\n  strum D43 U12 D U!\nexercise e\n  over C\n  each q`)).toEqual([
      '0 D43, 1 U12, 2 D4321, 3 U1234',
    ]);
  });
});

describe('later endings', () => {
  const TWO_BARS = 'pattern long\n  count 1 2 3 4 | 1 2 3 4\n  pick 4 4 4 4 | 1 1 1 1\n';

  test.each([
    [
      'go on where the first one went on, since both are come to from the same bar',
      '|: C | 1st Am :| 2nd F ||',
      ['0 4:0, 1 4:0, 2 4:0, 3 4:0', '0 1:0, 1 1:0, 2 1:0, 3 1:0', '0 1:0, 1 1:0, 2 1:0, 3 1:0'],
    ],
    [
      'and the music behind them follows the last one',
      '|: C | 1st Am :| 2nd F || C |',
      [
        '0 4:0, 1 4:0, 2 4:0, 3 4:0',
        '0 1:0, 1 1:0, 2 1:0, 3 1:0',
        '0 1:0, 1 1:0, 2 1:0, 3 1:0',
        '0 4:0, 1 4:0, 2 4:0, 3 4:0',
      ],
    ],
    [
      'a third one too',
      '|: C | 1st Am :| 2nd F :| 3rd C ||',
      [
        '0 4:0, 1 4:0, 2 4:0, 3 4:0',
        '0 1:0, 1 1:0, 2 1:0, 3 1:0',
        '0 1:0, 1 1:0, 2 1:0, 3 1:0',
        '0 1:3, 1 1:3, 2 1:3, 3 1:3',
      ],
    ],
  ])('%s', (_name, bars, expected) => {
    const text = `${SHAPES}${TWO_BARS}progression v\n  ${bars}\nexercise e\n  play v\n  with long`;
    expect(played(text)).toEqual(expected);
  });
});

test('a slap is written as a note of its beat and then silence, because it puts the chord out', () => {
  const text = `${SHAPES}pattern s\n  count 1 & 2 & 3 & 4 &\n  strum D . . . . . . U\n  hit . . thumb4 . . . . .\nprogression v\n  | C |\nexercise e\n  play v\n  with s`;
  const [bar] = barsOf(text);
  const [line] = bar === undefined ? [] : rhythmOf(bar);
  expect(line?.entries.map(({ kind, value }) => `${kind} ${value}`)).toEqual([
    'attack 4',
    'attack 4',
    'rest 4',
    'rest 8',
    'attack 8',
  ]);
});
