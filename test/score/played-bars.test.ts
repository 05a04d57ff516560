import { describe, expect, test } from 'vitest';
import { playedBars } from '../../shared/score/played-bars.ts';
import { barsOf, inQuarters, played } from './scoring.ts';

// What repeat signs and endings mean is common practice, no source; the order of the second line of the table is a player's question.

const SHAPES = 'chord A 2-1-0-0\nchord B 4-3-2-2\nchord C 0-0-0-3\nchord D 2-2-2-0\nchord E 1-4-0-2\n';

/** The chords in playing order, each with its time round where it is not the first. */
function order(progressions: string, play = 'v'): string {
  const bars = barsOf(`${SHAPES}${progressions}\nexercise e\n  play ${play}`);
  return playedBars(bars)
    .map(({ index, round }) => `${bars[index]?.chords[0]?.chord?.name ?? 'NC'}${round > 1 ? round : ''}`)
    .join(' ');
}

describe('the order in which bars are played', () => {
  test.each([
    ['no sign: as written', '| A | B | C |', 'A B C'],
    ['C-15 must: a repeat with two endings, and on', '|: A | B | 1st C :| 2nd D | E ||', 'A B C A2 B2 D2 E2'],
    ['the same where the second ending is closed', '|: A | B | 1st C :| 2nd D || E ||', 'A B C A2 B2 D2 E'],
    ['a repeat is twice', '|: A | B :| C |', 'A B A2 B2 C'],
    ['x3 is three times in all', '|: A | B :| x3', 'A B A2 B2 A3 B3'],
    ['without an opening sign from the start', '| A | B :| C |', 'A B A2 B2 C'],
    [':|: closes and opens', '|: A :|: B :| C |', 'A A2 B B2 C'],
    ['an ending for two times', '|: A | 1st+2nd B :| 3rd C ||', 'A B A2 B2 A3 C3'],
    ['three endings', '|: A | 1st B :| 2nd C :| 3rd D ||', 'A B A2 C2 A3 D3'],
    ['an ending of two bars', '|: A | 1st B | C :| 2nd D | E | A |', 'A B C A2 D2 E2 A'],
    ['a bar played again is a bar', '|: A | % :|', 'A A A2 A2'],
  ])('%s', (_name, bars, expected) => expect(order(`progression v\n  ${bars}`)).toBe(expected));

  test('a repeat without an opening sign goes back to the start of its own progression', () => {
    const two = 'progression v\n  | A | B ||\nprogression w\n  | C | D :| E |';
    expect(order(two, 'v, w')).toBe('A B C D C2 D2 E');
    expect(order(two, 'w x2')).toBe('C D C2 D2 E C D C2 D2 E');
  });

  test('a progression that ends in endings does not take the next one along', () => {
    const two = 'progression v\n  |: A | 1st B :| 2nd C ||\nprogression w\n  |: D | 1st E :| 2nd A ||';
    expect(order(two, 'v, w')).toBe('A B A2 C2 D E D2 A2');
  });

  test('a pickup is played once more where the repeat goes back to it', () => {
    const bars = barsOf(`${SHAPES}progression v\n  count 4\n  | A | B | C / / :|\nexercise e\n  play v`);
    const order = playedBars(bars);
    expect(order.map(({ index }) => bars[index]?.number ?? 'pickup')).toEqual(['pickup', 1, 2, 'pickup', 1, 2]);
    // One beat, four and three: each round is two full bars.
    expect(bars.map(({ length }) => inQuarters(length))).toEqual(['1', '4', '3']);
  });
});

describe('repeats in a count are played out: a pattern is as long as it sounds', () => {
  const over = (rows: string, bars = '| A |', header = '') =>
    `${header}${SHAPES}pattern q\n  ${rows}\nprogression v\n  ${bars}\nexercise e\n  play v\n  with q`;
  const firsts = (text: string) => played(text).map((bar) => bar.split(', ')[0]);

  test('x3 and what follows: four bars, then from the first again', () => {
    const text = over('count |: 1 2 3 4 :| x3\n  strum D U D U\n  count 1-2 3-4\n  strum U D', '| A | B | C | D | A |');
    expect(firsts(text)).toEqual(['0 D4321', '0 D4321', '0 D4321', '0 U1234', '0 D4321']);
    expect(barsOf(text).map(({ counts }) => counts.map((count) => count.text).join(' '))).toEqual([
      '1 2 3 4',
      '1 2 3 4',
      '1 2 3 4',
      '1-2 3-4',
      '1 2 3 4',
    ]);
    expect(barsOf(text).map(({ patternStarts }) => patternStarts?.length ?? 0)).toEqual([1, 0, 0, 0, 1]);
  });

  test('endings, each in its turn', () => {
    const text = over('count |: 1-4 | 1st 1-2 3-4 :| 2nd 1 2-4 ||\n  pick 4 3 2 1 .', '| A | A | A | A |');
    expect(played(text)).toEqual(['0 4:2', '0 3:1, 2 2:0', '0 4:2', '0 1:0']);
  });

  test('a pickup before the repeat is played once', () => {
    const rows = 'count 4 |: 1 2 3 4 :| 1 2 3\n  pick 1 4 3 2 1 4 3 2';
    const text = over(rows, 'count 4\n  | A | B | C | D / / |');
    expect(firsts(text)).toEqual(['0 1:0', '0 4:4', '0 4:0', '0 4:2']);
  });

  test('over … each: what starts on four starts on four', () => {
    const text = `${SHAPES}pattern q\n  count 4 | 1 2 3\n  pick 1 4 3 2\nexercise e\n  over C\n  each q`;
    expect(played(text)).toEqual(['3 1:3', '0 4:0, 1 3:0, 2 2:0']);
  });

  test('over … each gives a pattern the bars that it takes', () => {
    const text = `${SHAPES}pattern q\n  count |: 1 2 3 4 :|\n  pick 4 3 2 1\nexercise e\n  over C\n  each q`;
    expect(barsOf(text)).toHaveLength(2);
  });

  test('every repeated mark points at the one mark that was written', () => {
    const text = over('count |: 1-4 :| x3\n  pick 4', '| A | A | A |');
    const sources = barsOf(text).flatMap(({ events }) => events.map(({ source }) => source.span.start));
    expect(sources).toHaveLength(3);
    expect(new Set(sources).size).toBe(1);
  });
});

describe('a tune whose count repeats as its progression does', () => {
  const tune = (count: string, marks: string, bars: string, exercise = 'with air') =>
    `${SHAPES}melody air\n  count ${count}\n  tune ${marks}\npattern roll\n  count 1 2 3 4\n  pick 4 3 2 1\nprogression v\n  ${bars}\nexercise e\n  play v\n  ${exercise}`;

  test.each([
    [
      'both come round together, and each ending has its own part',
      tune('|: 1-4 | 1st 1-4 :| 2nd 1-4 ||', '1:1 1:2 1:3', '|: A | 1st B :| 2nd C ||'),
      ['0 1:1', '0 1:2', '0 1:3'],
    ],
    [
      'and what follows goes on behind it',
      tune('|: 1-4 :| 1-4', '1:1 1:2', '|: A :| B | C |', 'with air, roll'),
      ['0 1:1', '0 1:2', '0 4:0, 1 3:0, 2 2:0, 3 1:3'],
    ],
    [
      'from its own place on',
      tune('|: 1-4 | 1st 1-4 :| 2nd 1-4 ||', '1:1 1:2 1:3', '| C |: A | 1st B :| 2nd C ||', 'with roll, air'),
      ['0 4:0, 1 3:0, 2 2:0, 3 1:3', '0 1:1', '0 1:2', '0 1:3'],
    ],
    ['three times, where both say so', tune('|: 1-4 :| x3 1-4', '1:1 1:2', '|: A :| x3 B |'), ['0 1:1', '0 1:2']],
    [
      'with an upbeat',
      tune('4 |: 1-4 | 1st 1-3 4 :| 2nd 1-3', '1:9 1:1 1:2 1:8 1:3', 'count 4\n  | A |: A | 1st B :| 2nd C / / |'),
      ['0 1:9', '0 1:1', '0 1:2, 3 1:8', '0 1:3'],
    ],
    [
      'from line to line',
      tune('|: 1-4 |\n  tune 1:1\n  count | 1st 1-4 :| 2nd 1-4 ||', '1:2 1:3', '|: A | 1st B :| 2nd C ||'),
      ['0 1:1', '0 1:2', '0 1:3'],
    ],
    // What repeats otherwise than the bars is played out over them.
    [
      'not where the bars come round otherwise',
      tune('|: 1-4 :| x3', '1:1', '|: A :| B | C |'),
      ['0 1:1', '0 1:1', '0 1:1'],
    ],
    [
      'played out over several lines',
      tune('|: 1-4 |\n  tune 1:1\n  count | 1st 1-4 :| 2nd 1-4 ||', '1:2 1:3', '| A | B | C | D |'),
      ['0 1:1', '0 1:2', '0 1:1', '0 1:3'],
    ],
    ['nor where they do not', tune('|: 1-4 :|', '1:1', '| A | B |'), ['0 1:1', '0 1:1']],
  ])('%s', (_name, text, expected) => expect(played(text)).toEqual(expected));

  test('played, the tune is heard as the sheet leads', () => {
    const text = tune('|: 1-4 | 1st 1-4 :| 2nd 1-4 ||', '1:1 1:2 1:3', '|: A | 1st B :| 2nd C ||');
    const bars = barsOf(text);
    const heard = playedBars(bars).map(({ index }) => played(text)[index]);
    expect(heard).toEqual(['0 1:1', '0 1:2', '0 1:1', '0 1:3']);
  });
});

describe('patterns longer and shorter than the chord', () => {
  const with3 = (exercise: string, bars: string) =>
    `${SHAPES}pattern three\n  count 1 2 3\n  pick 4 3 2\npattern four\n  count 1 2 3 4\n  pick 4 3 2 1\nprogression v\n  ${bars}\nexercise e\n  play v\n  ${exercise}`;
  const starts = (text: string) =>
    barsOf(text).map(({ patternStarts = [] }) =>
      patternStarts.map(({ at, name }) => `${inQuarters(at)} ${name}`).join(', '),
    );

  test.each([
    [
      'running on, three counts in bars of four',
      with3('with three', '| A | B | C |'),
      ['0 three, 3 three', '2 three', '1 three'],
    ],
    ['running on under a change', with3('with four', '| A B |'), ['0 four']],
    ['restart bar', with3('with three\n  restart bar', '| A | B |'), ['0 three, 3 three', '0 three, 3 three']],
    ['restart chord', with3('with four\n  restart chord', '| A B | C |'), ['0 four, 2 four', '0 four']],
    // A chord that is struck again is no new chord, and neither is a bar that is played again.
    [
      'restart chord, over a chord of two bars',
      with3('with three\n  restart chord', '| A | A | B |'),
      ['0 three, 3 three', '2 three', '0 three, 3 three'],
    ],
    ['restart chord, over %', with3('with three\n  restart chord', '| A | % |'), ['0 three, 3 three', '2 three']],
    ['restart chord, after silence', with3('with four\n  restart chord', '| A NC | A |'), ['0 four, 2 four', '0 four']],
    [
      'another pattern in one bar',
      with3('with three\n  at bar 2 four', '| A | B | C |'),
      ['0 three, 3 three', '0 four', '1 three'],
    ],
    [
      'an ending of two bars is filled whole',
      with3('with four\n  at 2nd three', '|: A | 1st B | C :| 2nd D | E ||'),
      ['0 four', '0 four', '0 four', '0 three, 3 three', '2 three'],
    ],
    ['one after another', with3('with three, four', '| A | B |'), ['0 three, 3 four', '3 three']],
  ])('%s', (_name, text, expected) => expect(starts(text)).toEqual(expected));
});

describe('chords ahead of the beat', () => {
  const text = `${SHAPES}pattern push\n  count 1 & 2 & 3 & 4 &\n  strum D . D U . U D U\n  chord . . . . . . . B\nprogression v\n  | A | B | C |\nexercise e\n  play v\n  with push`;

  test('the bar says where the chord is taken, and from which mark', () => {
    const [first] = barsOf(text);
    expect(
      first?.chords.map(({ at, length, chord }) => `${inQuarters(at)}+${inQuarters(length)} ${chord?.name}`),
    ).toEqual(['0+7/2 A', '7/2+1/2 B']);
    const push = first?.chords[1]?.source;
    expect(push?.entry.text.slice(push.span.start, push.span.end)).toBe('B');
  });

  test('a push to the chord that is held is none', () => {
    expect(barsOf(text).map(({ chords }) => chords.length)).toEqual([2, 1, 2]);
  });

  test('the stroke on it sounds the new chord', () => {
    const [first] = barsOf(text);
    const last = first?.events.at(-1);
    expect(last?.kind === 'strum' && last.notes.map(({ fret }) => fret)).toEqual([2, 2, 3, 4]);
  });
});

describe('where the left hand is after a trill', () => {
  const frets = (row: string) =>
    barsOf(`${SHAPES}melody m\n  count 1 2 3 4\n  tune ${row}\nexercise e\n  over C\n  each m`).flatMap(({ events }) =>
      events.flatMap((event) => (event.kind === 'notes' ? event.notes.map(({ fret }) => fret) : [])),
    );
  test.each([
    ['a timed trill stays at its fret', '1:5 t7 v .', [5, 5, 5]],
    ['and so does what comes after a quick one', '1:5t7 v . .', [5, 5]],
    ['a quick hammer-on leads to its fret', '1:5h7 v . .', [5, 7]],
    ['and a slide in time', '1:5 s7 b .', [5, 7, 7]],
  ])('%s', (_name, row, expected) => expect(frets(row)).toEqual(expected));
});

test('words that both the progression and its tune have are sung once, where the tune has them', () => {
  const text = (words: string) =>
    `${SHAPES}melody air\n  count 1 2 3-4\n  tune 1:0 1:2 1:3\n  words ${words}\nprogression v\n  | A |\n  words The ri- ver\nexercise e\n  play v\n  with air`;
  const sung = (words: string) =>
    barsOf(text(words)).flatMap(({ syllables }) => syllables.map(({ at, text }) => `${inQuarters(at)} ${text}`));
  expect(sung('The ri- ver')).toEqual(['0 The', '1 ri-', '2 ver']);
  expect(sung('The sea .')).toEqual(['0 The', '4/3 ri-', '8/3 ver', '0 The', '1 sea']);
});
