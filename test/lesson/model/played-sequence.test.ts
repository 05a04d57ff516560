import { describe, expect, test } from 'vitest';
import { playedIn, spareIn } from './played.ts';

// At 60 beats a minute a beat is a second: every time below can be counted off.
const CHORDS = 'tempo 60\nchord C 0-0-0-3\nchord F 2-0-1-0\nchord G7 0-2-1-2\nchord Am 2-0-0-0\nchord Am7 0-0-0-0\n';

const exercise = (bars: string, rows: string, more = '') =>
  `${CHORDS}progression v\n  ${bars}\npattern r\n  ${rows}\nexercise e\n  play v\n  with r\n${more}`;

describe('the time for a change, from the last stroke before it to the first after', () => {
  test.each([
    // One string a beat; C stops string 1 only, F strings 4 and 2. The last chord leads to the first of the next time through.
    ['string 1 of C on beat 4, strings 4 and 2 of F on 1 and 3', '| C | F |', 'pick 4 3 2 1', 'C 1.00, F 5.00'],
    ['string 1 of C on beat 1, strings 2 and 4 of F on 2 and 4', '| C | F |', 'pick 1 2 3 4', 'C 5.00, F 1.00'],
    ['full strums on every beat', '| C | F |', 'strum D D D D', 'C 1.00, F 1.00'],
    ['the last up stroke is off the beat: it may be let go', '| C | F |', 'strum D U D U D U D U', 'C 1.00, F 1.00'],
    ['only the last one', '| C | F |', 'count 1 e & a 2 e & a 3 4\n  strum D . . . D . . . D U', 'C 1.00, F 1.00'],
    ['damped strokes and taps need no shape', '| C | F |', 'strum D Dx chunk Dx', 'C 4.00, F 4.00'],
    ['two chords a bar', '| C F | G7 |', 'strum D D D D', 'C 1.00, F 1.00, G7 1.00'],
    ['open strings need no hand: it has their bar as well', '| Am7 | C |', 'strum D D D D', 'Am7 4.00, C 5.00'],
    ['where no chord is played there is time', '| C | NC | F |', 'strum D D D D', 'C 5.00, F 1.00'],
    ['a chord that is struck again is no change', '| C | C | F |', 'strum D D D D', 'C 1.00, F 1.00'],
  ])('%s', (_name, bars, rows, expected) => expect(playedIn(exercise(bars, rows))).toBe(expected));

  test('a push in the pattern takes the chord early', () => {
    const rows = 'strum D D D D\n  chord . . . F';
    expect(playedIn(exercise('| C | G7 |', rows))).toBe('C 1.00, F 1.00, G7 1.00, F 1.00');
  });

  test('without a pattern there is a beat, or as long as the chord lasts', () => {
    const bare = (bars: string) => `${CHORDS}progression v\n  ${bars}\nexercise e\n  play v\n`;
    expect(playedIn(bare('| C | F |'))).toBe('C 1.00, F 1.00');
    expect(playedIn(bare('| C F G7 Am | F |'))).toBe('C 1.00, F 1.00, G7 1.00, Am 1.00, F 1.00');
  });

  test('the greatest tempo counts, that of the exercise before that of the lesson; a beat of 6/8 is three eighths', () => {
    const bars = '| C | F |';
    expect(playedIn(exercise(bars, 'strum D D D D', '  tempo 60 to 120 by 4\n'))).toBe('C 0.50, F 0.50');
    const six = exercise(bars, 'strum D D D D D D').replace('tempo 60', 'meter 6/8\ntempo 60');
    // Six strokes to two beats; the last, a down stroke off the beat, may be let go.
    expect(playedIn(six)).toBe('C 0.67, F 0.67');
    expect(playedIn(six.replace('tempo 60', 'tempo 60 eighths'))).toBe('C 2.00, F 2.00');
    // The beat is that of the bar in which the music begins.
    const begun = exercise('| 6/8 C | F |', 'meter 6/8\n  count 1 2 3 4 5 6\n  strum D . . D . .');
    expect(playedIn(begun)).toBe('C 1.00, F 1.00');
  });

  test('without a tempo nobody knows', () => {
    expect(playedIn(exercise('| C | F |', 'strum D D D D').replace('tempo 60\n', ''))).toBe('C -, F -');
  });
});

describe('what single strings give beyond that, before the change and after it', () => {
  test.each([
    ['nothing where all are strummed', '| C | F |', 'strum D D D D', 'C -, F -'],
    ['nothing in strums whose last one is let go', '| C | F |', 'strum D U D U D U D U', 'C -, F -'],
    // The hand leaves C with string 1 on beat 4; strings 4, 3, 2 are done with on beats 1, 2, 3. F stops 4 and 2, so that it must begin on 1.
    ['string by string', '| C | F |', 'pick 4 3 2 1', 'C 3/0 2/1 1/2 0/3, F 2/0 1/0 0/0 0/0'],
    [
      'a string that is not played is free all the time',
      '| F | C |',
      'pick 4 . 2 1',
      'F 2/0 2/1 0/0 0/0, C 3/0 3/4 1/2 0/3',
    ],
    ['strums on some strings', '| C | F |', 'strum D D21 D D21', 'C 1/0 1/0 0/0 0/0, F 1/0 1/0 0/0 0/0'],
    [
      'a string that must ring keeps its finger as long as the hand is there',
      '| C | F |',
      'pick 4 3 2 1\n  ring all',
      'C 0/0 0/1 0/2 0/3, F -',
    ],
    ['one of them', '| C | F |', 'pick 4 3 2 1\n  ring 4', 'C 0/0 2/1 1/2 0/3, F 0/0 1/0 0/0 0/0'],
    ['until it is stopped', '| F | Am |', 'pick 4 2 stop4 2\n  ring 4', 'F 1/0 3/4 0/1 3/4, Am 0/0 0/4 0/1 0/4'],
    [
      'or everything is damped',
      '| F | Am |',
      'pick 4 2 . 2\n  strum . . chunk .\n  ring 4',
      'F 1/0 3/4 0/1 3/4, Am 0/0 0/4 0/1 0/4',
    ],
    [
      'a last strum that is let go holds no string',
      '| F | C |',
      'count 1 & 2 & 3 & 4 &\n  pick 4 . 3 . 2 . . .\n  strum . . . . . . . U',
      'F 2/0 1/0 0/0 2/0, C 0/0 0/1 0/2 0/3.5',
    ],
    ['a note off the shape is any finger’s', '| C | F |', 'pick 4 3 2:2 1', 'C 1/0 1/1 1/2 0/2, F -'],
  ])('%s', (_name, bars, rows, expected) => expect(spareIn(exercise(bars, rows))).toBe(expected));

  test('an exercise’s own ring goes before; without a tempo or a pattern nobody knows', () => {
    expect(spareIn(exercise('| C | F |', 'pick 4 3 2 1', '  ring 4\n'))).toMatch(/^C 0\/0 2\/1/);
    expect(spareIn(exercise('| C | F |', 'pick 4 3 2 1\n  ring all', '  ring none\n'))).toMatch(/^C 3\/0 2\/1/);
    expect(spareIn(exercise('| C | F |', 'pick 4 3 2 1').replace('tempo 60\n', ''))).toBe('C -, F -');
    expect(spareIn(`${CHORDS}progression v\n  | C | F |\nexercise e\n  play v\n`)).toBe('C -, F -');
  });
});

describe('chords in the order in which they are played', () => {
  const order = (bars: string, more = '') => playedIn(exercise(bars, 'strum D D D D', more)).replace(/ [\d.]+/g, '');
  test.each([
    ['a repeat brings its end before its start', '|: C | F :| G7 |', 'C, F, C, F, G7'],
    ['endings', '|: C | 1st F :| 2nd G7 || Am |', 'C, F, C, G7, Am'],
    ['an ending for two times', '|: C | 1st+2nd F :| 3rd G7 ||', 'C, F, C, G7'],
    ['a third time tells no more', '|: C | F :| x3', 'C, F, C, F'],
    ['without an opening sign from the start', '| C | F :| G7 |', 'C, F, C, F, G7'],
    ['a repeated bar', '| C | % | F |', 'C, F'],
  ])('%s', (_name, bars, expected) => expect(order(bars)).toBe(expected));

  test('over chords, each with its list', () => {
    const lesson = `${CHORDS}pattern r\n  strum D D D D\nexercise e\n  over C, F x2, G7\n  each r x2\n`;
    expect(playedIn(lesson)).toBe('C 1.00, F 1.00, G7 1.00');
  });

  test('a second pattern is the second time through', () => {
    const lesson = `${CHORDS}progression v\n  | C | F |\npattern r\n  strum D D D D\npattern s\n  strum D . . .\nexercise e\n  play v\n  with r\n  with s\n`;
    expect(playedIn(lesson)).toBe('C 1.00, F 1.00, C 4.00, F 4.00');
  });
});
