import { describe, expect, test } from 'vitest';
import { barsOf, chordsIn, inQuarters, played, progressionBars, timesIn } from './scoring.ts';

const SHAPES = 'chord A 2-1-0-0\nchord B 4-3-2-2\nchord C 0-0-0-3\nchord D 2-2-2-0\nchord E 1-4-0-2\n';
const COUNTS = 'pattern four\n  count 1 2 3 4\n  pick 4 3 2 1\n';

/** Bars of a progression without patterns. */
function written(bars: string, header = ''): ReturnType<typeof progressionBars> {
  return progressionBars(`${header}${SHAPES}progression v\n  ${bars}`);
}

describe('bars of a progression', () => {
  test.each([
    ['one chord', '| C |', ['0 C']],
    ['two chords share', '| C D |', ['0 C, 2 D']],
    ['four chords', '| C D E A |', ['0 C, 1 D, 2 E, 3 A']],
    ['slashes are beats', '| C / / D |', ['0 C, 3 D']],
    // A bar that begins with a slash names no chord at its head: the one before goes on.
    ['a lone slash goes on', '| C | / D / / |', ['0 C', '1 D']],
    ['% plays the bar before again', '| C D | % |', ['0 C, 2 D', '0 C, 2 D']],
    ['NC is silence', '| NC | C NC |', ['0 NC', '0 C, 2 NC']],
  ])('%s', (_name, bars, expected) => expect(chordsIn(written(bars))).toEqual(expected));

  test('signs, numbers, meters', () => {
    const bars = written('|: A | B :| x3\n  | 2/4 C | 4/4 D ||');
    expect(
      bars.map(({ number, opens, closes, times, meter, showsMeter, length }) => [
        number,
        opens,
        closes,
        times,
        showsMeter ? `${meter.counts}/${meter.unit}` : '',
        inQuarters(length),
      ]),
    ).toEqual([
      [1, '|:', '|', undefined, '4/4', '4'],
      [2, undefined, ':|', 3, '', '4'],
      [3, undefined, '|', undefined, '2/4', '2'],
      [4, undefined, '||', undefined, '4/4', '4'],
    ]);
  });

  test(':|: closes one repeat and opens the next', () => {
    expect(written('|: A | B :|: C | D :|').map(({ opens, closes }) => [opens, closes])).toEqual([
      ['|:', '|'],
      [undefined, ':|'],
      ['|:', '|'],
      [undefined, ':|'],
    ]);
  });

  test('C-15 must, as far as written order goes: repeat with endings', () => {
    // Played it is A B C A B D E, which played-bars.test.ts holds; here the bars stand as written.
    const bars = written('|: A | B | 1st C :| 2nd D || E |');
    expect(chordsIn(bars)).toEqual(['0 A', '0 B', '0 C', '0 D', '0 E']);
    expect(
      bars.map(
        ({ ending }) =>
          ending && `${ending.numbers.join('+')}${ending.begins ? ' begins' : ''}${ending.ends ? ' ends' : ''}`,
      ),
    ).toEqual([undefined, undefined, '1 begins ends', '2 begins ends', undefined]);
  });

  test('an ending of two bars, and a last one without a sign that is as long as the first', () => {
    const bars = written('|: A | 1st B | C :| 2nd D | E | A |');
    expect(bars.map(({ ending }) => ending?.numbers[0] ?? 0)).toEqual([0, 1, 1, 2, 2, 0]);
    expect(bars.map(({ ending }) => ending?.ends ?? false)).toEqual([false, false, true, false, true, false]);
  });

  test('1st+2nd', () => {
    expect(written('|: A | 1st+2nd B :| 3rd C ||').map(({ ending }) => ending?.numbers)).toEqual([
      undefined,
      [1, 2],
      [3],
    ]);
  });

  test('words are shared out by bars and syllables, _ holds, a second verse has its number', () => {
    const bars = written('| A | B |\n  words Pa-per _ | moon\n  words 2 Sil-ver');
    expect(
      bars.map(({ syllables }) => syllables.map(({ at, text, verse }) => `${verse} ${inQuarters(at)} ${text}`)),
    ).toEqual([['1 0 Pa-', '1 4/3 per', '2 0 Sil-', '2 2 ver'], ['1 0 moon']]);
  });
});

describe('pickups (C-2 must)', () => {
  const lesson = (pattern: string, bars = '| A | B | C / / |'): string =>
    `${SHAPES}${pattern}progression v\n  count 4\n  ${bars}\nexercise e\n  play v\n  with four`;

  test('the first bar is one beat, the first full bar is number 1, the last may lack the beat', () => {
    const bars = barsOf(lesson(COUNTS));
    expect(bars.map(({ number, length }) => [number, inQuarters(length)])).toEqual([
      [undefined, '1'],
      [1, '4'],
      [2, '3'],
    ]);
  });

  test('a pattern that starts on 1 begins with the first full bar', () => {
    expect(played(lesson(COUNTS))).toEqual(['', '0 4:4, 1 3:3, 2 2:2, 3 1:2', '0 4:0, 1 3:0, 2 2:0']);
  });

  test('one that starts on 4 begins with the pickup', () => {
    const late = 'pattern four\n  count 4 | 1 2 3\n  pick 1 4 3 2\n';
    expect(played(lesson(late))).toEqual(['0 1:0', '0 4:4, 1 3:3, 2 2:2, 3 1:2', '0 4:0, 1 3:0, 2 2:0']);
  });

  test('a pattern that starts late begins late in a bar that has no pickup', () => {
    const late = 'pattern four\n  count 4 | 1 2 3\n  pick 1 4 3 2\n';
    const text = `${SHAPES}${late}progression v\n  | A | B |\nexercise e\n  play v\n  with four`;
    expect(played(text)).toEqual(['3 1:0', '0 4:4, 1 3:3, 2 2:2, 3 1:2']);
  });

  // The pickup is the tune's alone, and on 1 both are together. Common practice, no source.
  test.each([
    ['named first', 'four + up', 'count 4\n  | A | B | C / / |', ['0 1:7', '0 4:4, 0 1:5, 1 3:3, 2 2:2']],
    ['named last', 'up + four', 'count 4\n  | A | B | C / / |', ['0 1:7', '0 4:4, 0 1:5, 1 3:3, 2 2:2']],
    ['bars of two beats before it', 'four + up', 'count 3\n  | A | B | C / |', ['1 1:7', '0 4:4, 0 1:5, 1 3:3, 2 2:2']],
    ['no pickup in the bars', 'four + up', '| A | B | C |', ['3 1:7', '0 4:4, 0 1:5, 1 3:3, 2 2:2']],
  ])(
    'a tune with a pickup and a pattern without begin their first full bars together: %s',
    (_, both, bars, expected) => {
      const tune = 'melody up\n  count 4 | 1 2 3 4 | 1 2 3\n  tune 1:7 1:5 . . . 1:3 . .\n';
      const text = `${SHAPES}${COUNTS}${tune}progression v\n  ${bars}\nexercise e\n  play v\n  with ${both}`;
      const sorted = played(text).map((bar) => bar.split(', ').sort().join(', '));
      expect(sorted.slice(0, 2)).toEqual(expected.map((bar) => bar.split(', ').sort().join(', ')));
    },
  );

  test('a repeat that comes round to the pickup: the bar before it is that much shorter, in the tune as in its bars', () => {
    const bars = 'progression v\n  count 4\n  |: A | B | 1st A / / :| 2nd C / / ||\n';
    const tune = 'melody m\n  count |: 4 | 1 2 3 4 | 1st 1 2-3 :| 2nd 1-3 ||\n  tune 1:7 1:5 . . . 1:3 1:2 1:0\n';
    const text = (lines: string, times = '') => `${SHAPES}${bars}${lines}exercise e\n  play v${times}\n  with m`;
    const along = ['0 1:7', '0 1:5', '0 1:3, 1 1:2', '0 1:0'];
    expect(played(text(tune))).toEqual(along);
    expect(played(text(tune, ' x2'))).toEqual([...along, ...along]);
    const inLines =
      'melody m\n  count |: 4 | 1 2 3 4\n  tune 1:7 1:5 . . .\n  count | 1st 1 2-3 :| 2nd 1-3 ||\n  tune 1:3 1:2 1:0\n';
    expect(played(text(inLines))).toEqual(along);
    // Played out, every bar has four beats: the rest of the first ending and the pickup are one bar.
    const even = `${SHAPES}${tune}progression v\n  count 4\n  | A | A | A | A | A / / |\nexercise e\n  play v\n  with m`;
    expect(played(even)).toEqual(['0 1:7', '0 1:5', '0 1:3, 1 1:2, 3 1:7', '0 1:5', '0 1:0']);
  });

  test('what stands in for a bar begins on the count that it names', () => {
    const late = 'pattern last\n  count 4\n  pick 1\n';
    const text = `${SHAPES}${COUNTS}${late}progression v\n  | A | B |\nexercise e\n  play v\n  with four\n  at bar 2 last`;
    expect(played(text)[1]).toBe('3 1:2');
  });

  test('bars are numbered through progressions that follow each other', () => {
    const text = `${SHAPES}${COUNTS}progression v\n  count 4\n  | A | B |\nprogression w\n  | C |\nexercise e\n  play v, w x2\n  with four`;
    expect(barsOf(text).map(({ number }) => number)).toEqual([undefined, 1, 2, 3]);
  });

  test('the pickup of 6/8 counted in eighths', () => {
    const [pickup] = progressionBars(`meter 6/8\n${SHAPES}progression v\n  count 6\n  | A | B |`);
    expect(inQuarters(pickup?.length ?? { numerator: 0, denominator: 1 })).toBe('1/2');
  });
});

describe('meters that change', () => {
  test('patterns run on by their own length', () => {
    const text = `${SHAPES}${COUNTS}progression v\n  | A | 2/4 B | 4/4 C |\nexercise e\n  play v\n  with four`;
    expect(timesIn(text)).toEqual(['0+1 1+1 2+1 3+1', '0+1 1+1', '0+1 1+1 2+1 3+1']);
    expect(played(text)[2]).toBe('0 2:0, 1 1:3, 2 4:0, 3 3:0');
  });

  test('a count says where another meter begins, and the tune keeps to its bars', () => {
    const tune =
      'melody m\n  count 1 2 3 4 | 2/4 1 2\n  tune 1:1 . 1:3 . 2:1 2:2\n  count 1 2 | 4/4 1 2 3-4\n  tune 3:1 3:2 4:1 4:2 4:4\n';
    const text = `${SHAPES}${tune}progression v\n  | A | 2/4 B | A | 4/4 C |\nexercise e\n  play v\n  with m`;
    expect(played(text)).toEqual(['0 1:1, 2 1:3', '0 2:1, 1 2:2', '0 3:1, 1 3:2', '0 4:1, 1 4:2, 2 4:4']);
  });

  test('eighths are counted as such behind quarters', () => {
    const tune = 'melody m\n  count 1 2 3 4 | 6/8 1 2 3 4 5 6 | 4/4 1-4\n  tune 1:1 . . . 2:1 . 2:2 . 2:3 . 1:0\n';
    const text = `${SHAPES}${tune}progression v\n  | A | 6/8 B | 4/4 C |\nexercise e\n  play v\n  with m`;
    expect(played(text)).toEqual(['0 1:1', '0 2:1, 1 2:2, 2 2:3', '0 1:0']);
  });

  test('an exercise may have its own meter', () => {
    const text = `${SHAPES}progression v\n  | A | B |\npattern four\n  meter 3/4\n  strum D D D\nexercise e\n  play v\n  with four\n  meter 3/4`;
    expect(barsOf(text).map(({ length }) => inQuarters(length))).toEqual(['3', '3']);
    expect(timesIn(text)).toEqual(['0+1 1+1 2+1', '0+1 1+1 2+1']);
  });
});

describe('no chord', () => {
  const over = (row: string): string =>
    `${SHAPES}melody four\n  count 1 2 3 4\n  ${row}\nprogression v\n  | NC | C |\nexercise e\n  play v\n  with four`;

  test.each([
    ['strokes rest', 'strum D D D D', ['', '0 D4321, 1 D4321, 2 D4321, 3 D4321']],
    ['picking rests', 'pick 4 3 2 1', ['', '0 4:0, 1 3:0, 2 2:0, 3 1:3']],
    ['hits go on', 'hit body . body .', ['0 body, 2 body', '0 body, 2 body']],
    ['a tune goes on', 'tune 1:5 . 1:7 .', ['0 1:5, 2 1:7', '0 1:5, 2 1:7']],
  ])('%s', (_name, row, bars) => expect(played(over(row))).toEqual(bars));
});
