import { describe, expect, test } from 'vitest';
import { rhythmOf } from '../../shared/score/rhythm.ts';
import type { Beam } from '../../shared/score/rhythm-line.ts';
import { barsOf } from './scoring.ts';
import { gridLesson, rhythmIn } from './telling-rhythm.ts';

// How rhythm is written follows E. Gould, Behind Bars (2011), and the theory text Open Music Theory on beaming and on ties, both from
// memory; where they leave a choice, what is common practice in method books, no source.

describe('values and ties let the beats be seen', () => {
  test.each([
    ['quarters', '4/4', 'count 1 2 3 4; strum D D D D', '4 4 4 4'],
    ['a whole note', '4/4', 'count 1 2 3 4; strum D . . .', '1'],
    ['a dotted half from one', '4/4', 'count 1 2 3 4; strum D . . D', '2. 4'],
    ['a dotted half from two', '4/4', 'count 1 2 3 4; strum D D . .', '4 2.'],
    ['nothing else crosses the middle of 4/4', '4/4', 'count 1 2 3 4; strum D D . D', '4 4 -4 4'],
    ['five eighths from one', '4/4', 'count 1 & 2 & 3 & 4 &; strum D . . . . U D U', '2 [-8 8 8 8]'],
    ['dotted quarters', '4/4', 'count 1 & 2 & 3 & 4 &; strum D . . U D . . U', '4. 8 4. 8'],
    ['eighth, quarter, eighth inside half a bar', '4/4', 'count 1 & 2 & 3 & 4 &; strum D U . U D U . U', '8 4 8 8 4 8'],
    // C-6 must: D DU UDU; what is struck before beat 3 is held over it.
    ['the island strum', '4/4', 'count 1 & 2 & 3 & 4 &; strum D . D U . U D U', '4 [8 8] [-8 8 8 8]'],
    ['off the beat and longer than to the next', '4/4', 'count 1 & 2 & 3 & 4 &; strum D U . . D . . .', '[8 8] -4 2'],
    ['three and three and two', '4/4', 'count 1 & 2 & 3 & 4 &; strum D . . D . . D .', '4. 8 -4 4'],
    ['2/2 is written like 4/4', '2/2', 'count 1 & 2 &; strum D U . U', '4 4 -4 4'],
    ['a whole bar of 3/4', '3/4', 'count 1 2 3; strum D . .', '2.'],
    ['a half from two in 3/4', '3/4', 'count 1 2 3; strum D D .', '4 2'],
    ['two dotted quarters in 3/4 show beat 2 and 3', '3/4', 'count 1 & 2 & 3 &; strum D . . D . .', '4. 8 -4'],
    ['a quarter and an eighth in 6/8', '6/8', 'count 1 2 3 4 5 6; strum D . U D . U', '4 8 4 8'],
    ['over the middle of 6/8', '6/8', 'count 1 2 3 4 5 6; strum D . U . D .', '4 8 -8 4'],
    ['a whole bar of 6/8', '6/8', 'count 1 2 3 4 5 6; strum D . . . . .', '2.'],
    ['12/8 in one', '12/8', 'count 1 2 3 4; strum D . . .', '1.'],
    ['9/8: no one note lasts a bar', '9/8', 'count 1 2 3; strum D . .', '2. -4.'],
    ['the siciliano', '6/8', 'count 1 & 2 & 3 & 4 5 6; strum D . . U D . D . .', '[8. 16 8] 4.'],
    ['5/4 falls into three and two', '5/4', 'count 1 2 3 4 5; strum D . D . D', '2 4 -4 4'],
    ['7/8 falls into two, two and three', '7/8', 'count 1 2 3 4 5 6 7; strum D D . D . D .', '[8 8] [-8 8] -8 4'],
  ])('%s', (_name, meter, grid, expected) => expect(rhythmIn(gridLesson(meter, grid))).toEqual([expected]));
});

describe('rests', () => {
  test.each([
    ['before the first sound', '4/4', 'count 1 2 3 4; strum . . . D', 'r2 r4 4'],
    ['half rests only in half bars', '4/4', 'count 1 2 3 4; strum D stop . D', '4 r4 r4 4'],
    ['no dot off the compound meters', '4/4', 'count 1 & 2 & 3 & 4 &; strum D . stop . . U . .', '4 r4 r8 8 -4'],
    ['no half rest in 3/4', '3/4', 'count 1 2 3; strum . . D', 'r4 r4 4'],
    ['a quarter rest for the first two of three', '6/8', 'count 1 2 3 4 5 6; strum . . D D . .', 'r4 8 4.'],
    ['two eighth rests for the last two', '6/8', 'count 1 2 3 4 5 6; strum D stop . D . .', '8 r8 r8 4.'],
    ['a dotted rest for a dotted beat', '6/8', 'count 1 2 3 4 5 6; strum . . . D . .', 'r4. 4.'],
    ['a bar without a sound', '4/4', 'count 1 2 3 4; strum . . . .', 'empty'],
    ['a stop in silence', '3/4', 'count 1 2 3; strum stop . .', 'empty'],
  ])('%s', (_name, meter, grid, expected) => expect(rhythmIn(gridLesson(meter, grid))).toEqual([expected]));

  // A rest says that all is silent: while a string rings on there is none. Common practice, no source.
  test.each([
    ['of a string that was struck before the last', 'pick 4 3 stop4 1', '4 4 -4 4'],
    ['of the last string, while another rings on', 'pick 4 3 stop3 1', '4 4 -4 4'],
    ['of all strings that ring', 'pick 4 3 stop43 1', '4 4 r4 4'],
    ['of the only string that was struck', 'pick 4 stop4 . 1', '4 r4 r4 4'],
    ['of some strings of a strum', 'strum D stop43 . D', '2. 4'],
    ['of all strings of a strum', 'strum D stop4321 . D', '4 r4 r4 4'],
    ['after a stroke that damps what rang before it', 'strum D chunk D stop4321', '4 4 4 r4'],
  ])('a stop %s', (_name, row, expected) => {
    expect(rhythmIn(gridLesson('4/4', `count 1 2 3 4; ${row}`))).toEqual([expected]);
  });

  test('a pickup is the end of its bar, and its silence is no whole bar', () => {
    const text = gridLesson('4/4', 'count 1 & 2 & 3 & 4 &; strum D U D U D U D U', 'count 3\n  | C | C |');
    expect(rhythmIn(text)).toEqual(['r2', '[8 8 8 8] [8 8 8 8]']);
    const sung = gridLesson('6/8', 'count 6 | 1 2 3 4 5; strum U D . U D .', 'count 6\n  | C | C |');
    expect(rhythmIn(sung)).toEqual(['8', '4 8 4 8']);
  });

  test('where no chord is played strokes rest; what was struck before ends there', () => {
    expect(rhythmIn(gridLesson('4/4', 'count 1 2 3 4; strum D . . .', '| C NC | NC | C |'))).toEqual([
      '2 r2',
      'empty',
      '1',
    ]);
  });
});

describe('beams', () => {
  const eighths = (count: number, meter: string) => {
    const said = Array.from({ length: count / 2 }, (_, index) => `${index + 1} &`).join(' ');
    return gridLesson(meter, `count ${said}; strum ${Array(count).fill('D').join(' ')}`);
  };
  const counted = (count: number, meter: string) => {
    const said = Array.from({ length: count }, (_, index) => index + 1).join(' ');
    return gridLesson(meter, `count ${said}; strum ${Array(count).fill('D').join(' ')}`);
  };
  test.each([
    ['2/4', eighths(4, '2/4'), '[8 8 8 8]'],
    // C-5 must: six eighths group in twos in 3/4, and are two beats of three in 6/8.
    ['3/4: by beats, in twos', eighths(6, '3/4'), '[8 8] [8 8] [8 8]'],
    ['4/4: by half bars, never over the middle', eighths(8, '4/4'), '[8 8 8 8] [8 8 8 8]'],
    ['6/8: by three', counted(6, '6/8'), '[8 8 8] [8 8 8]'],
    ['9/8: by three', counted(9, '9/8'), '[8 8 8] [8 8 8] [8 8 8]'],
    ['12/8: by three', counted(12, '12/8'), '[8 8 8] [8 8 8] [8 8 8] [8 8 8]'],
    ['5/8: three and two', counted(5, '5/8'), '[8 8 8] [8 8]'],
    ['7/8: two, two and three', counted(7, '7/8'), '[8 8] [8 8] [8 8 8]'],
    ['3/8', counted(3, '3/8'), '[8 8 8]'],
    ['3/4 with a quarter', gridLesson('3/4', 'count 1 & 2 & 3 &; strum D . D U D U'), '4 [8 8] [8 8]'],
    [
      'with sixteenths by beats',
      gridLesson('4/4', 'count 1 & 2 e & a 3 & 4 &; strum D U D U D U D U D U'),
      '[8 8] [16 16 16 16] [8 8 8 8]',
    ],
    [
      'a rest parts beats',
      gridLesson('4/4', 'count 1 & 2 & 3 & 4 &; strum D stop D U D U D U'),
      '8 r8 [8 8] [8 8 8 8]',
    ],
    [
      'a rest inside a beat lies under its beam',
      gridLesson('4/4', 'count 1 e & a 2 3 4; strum D stop D U D D D'),
      '[16 r16 16 16] 4 4 4',
    ],
    ['a quarter parts beams', gridLesson('4/4', 'count 1 & 2 & 3 4; strum D U . U D D'), '8 4 8 4 4'],
  ])('%s', (_name, lesson, expected) => expect(rhythmIn(lesson)).toEqual([expected]));

  /** Level, first and last entry, and the side of a stub. */
  const segments = (grid: string, meter = '4/4') => {
    const [bar] = barsOf(gridLesson(meter, grid));
    const beams: readonly Beam[] = (bar === undefined ? [] : rhythmOf(bar)).flatMap((line) => line.beams);
    return beams
      .flatMap((beam) => beam.segments)
      .map(({ level, first, last, stub }) => `${level}: ${stub ?? `${first}-${last}`}`);
  };
  test.each([
    ['four sixteenths', 'count 1 e & a 2 3 4; strum D U D U D D D', ['2: 0-3']],
    ['a dotted eighth and a sixteenth', 'count 1 e & a 2 3 4; strum D . . U D D D', ['2: left']],
    ['a sixteenth and a dotted eighth', 'count 1 e & a 2 3 4; strum D U . . D D D', ['2: right']],
    ['an eighth among sixteenths', 'count 1 e & a 2 3 4; strum D U . U D D D', ['2: right', '2: left']],
    ['two sixteenths and an eighth', 'count 1 e & a 2 3 4; strum D U D . D D D', ['2: 0-1']],
    [
      '32nds by half beats',
      'count 1 a b c d e f g 2 3 4; strum D U D U D U D U D D D',
      ['2: 0-3', '2: 4-7', '3: 0-3', '3: 4-7'],
    ],
  ])('further beams: %s', (_name, grid, expected) => expect(segments(grid)).toEqual(expected));

  test('the short beam of a siciliano points to the note it leans on', () => {
    expect(segments('count 1 & 2 & 3 & 4 5 6; strum D . . U D . D . .', '6/8')).toEqual(['2: left']);
  });
});

describe('tuplets, as the count splits', () => {
  test.each([
    ['a beat in three', '4/4', 'count 1 la li 2 3 4; strum D D U D D D', '(3:2 [8 8 8]) 4 4 4'],
    // C-4 must: a quarter and an eighth of a triplet are one beat.
    ['a long and a short third', '4/4', 'count 1 la li 2 3 4; strum D . U D D D', '<3:2 4 8> 4 4 4'],
    ['only its first: no tuplet', '4/4', 'count 1 la li 2 3 4; strum D . . D D D', '4 4 4 4'],
    ['two beats in three', '4/4', 'count 1-2 la li 3 4; strum D D D D D', '<3:2 4 4 4> 4 4'],
    ['two beats in three from the second', '4/4', 'count 1 2-3 la li 4; strum D D D D D', '4 <3:2 4 4 4> 4'],
    ['a bar in three', '4/4', 'count 1-4 la li; strum D D D', '<3:2 2 2 2>'],
    ['a silent third', '4/4', 'count 1 la li 2 3 4; strum D stop U D D D', '(3:2 [8 r8 8]) 4 4 4'],
    [
      'held over from one triplet to the next',
      '4/4',
      'count 1 la li 2 la li 3 4; strum D U D . U D D D',
      '(3:2 [8 8 8]) (3:2 [-8 8 8]) 4 4',
    ],
    ['two thirds held on over the beat', '4/4', 'count 1 la li 2 3 4; strum D U . . D D', '<3:2 8 4> -4 4 4'],
    ['a beat in five', '4/4', 'count 1 a b c d 2 3 4; strum D U D U D D D D', '(5:4 [16 16 16 16 16]) 4 4 4'],
    ['three beats in five', '4/4', 'count 1-3 a b c d 4; strum D U D U D D', '<5:3 4 4 4 4 4> 4'],
    ['a beat in six', '4/4', 'count 1 a b c d e 2 3 4; strum D U D U D U D D D', '(6:4 [16 16 16 16 16 16]) 4 4 4'],
    [
      'two beats in six are twice three',
      '4/4',
      'count 1-2 a b c d e 3 4; strum D U D U D U D D',
      '(3:2 [8 8 8]) (3:2 [8 8 8]) 4 4',
    ],
    [
      'a beat in seven',
      '4/4',
      'count 1 a b c d e f 2 3 4; strum D U D U D U D D D D',
      '(7:4 [16 16 16 16 16 16 16]) 4 4 4',
    ],
    ['three in eight: no tuplet', '4/4', 'count 1 & 2 & 3 & 4 &; strum D . . U . . D .', '4. 8 -4 4'],
    ['two against three', '6/8', 'count 1-3 & 4 5 6; strum D U D U D', '(2:3 [8 8]) [8 8 8]'],
    ['four against three', '6/8', 'count 1-3 a b c 4 5 6; strum D U D U D U D', '(4:6 [16 16 16 16]) [8 8 8]'],
    ['five in a dotted beat', '6/8', 'count 1-3 a b c d 4 5 6; strum D U D U D D U D', '(5:3 [8 8 8 8 8]) [8 8 8]'],
    [
      'sixteenths in 6/8 that meet the middle',
      '6/8',
      'count 1 & 2 & 3 & 4 5 6; strum D . . U . . D U D',
      '[8. 16 -8] [8 8 8]',
    ],
    [
      'half a beat in three, by a count of six',
      '4/4',
      'count 1 a b c d e 2 3 4; strum D U D U . . D D D',
      '(6:4 [16 16 16 8.]) 4 4 4',
    ],
  ])('%s', (_name, meter, grid, expected) => expect(rhythmIn(gridLesson(meter, grid))).toEqual([expected]));

  test('a triplet that a pattern carries over a bar line', () => {
    const lesson = `meter 2/4\nchord C 0-0-0-3\npattern q\n  meter 3/4\n  count 1-2 la li 3\n  strum D D D D\nprogression v\n  | C | C | C |\nexercise e\n  play v\n  with q`;
    expect(rhythmIn(lesson)).toEqual(['<3:2 4 4 4>', '4 <3:2 4 8>', '<3:2 -8 4> 4']);
  });
});

describe('lines', () => {
  test.each([
    [
      'a tune above, what accompanies below',
      'melody',
      'count 1 2 3 4; tune 1:5 . 1:7 .; pick 4 3 2 3',
      '2 2 / 4 4 4 4',
    ],
    ['a tune alone', 'melody', 'count 1 2 3 4; tune 1:5 . 1:7 .', '2 2'],
    ['a silent tune is left out', 'melody', 'count 1 2 3 4; tune . . . .; pick 4 3 2 3', '4 4 4 4'],
    ['two voices: the thumb below', 'pattern', 'count 1 2 3 4; pick 4p . 3p .; pick 2 1m 2i 1m 2i', '4 4 4 4 / 2 2'],
    [
      'without fingers: the strings nearer the floor above',
      'pattern',
      'count 1 2 3 4; pick 4 . 3 .; pick 2 1 2 1 2',
      '4 4 4 4 / 2 2',
    ],
    [
      'two tunes: the first above',
      'melody',
      'count 1 2 3 4; tune 1:7 1:5 1:3 1:2; tune 2 3:0 . 3:2 .',
      '4 4 4 4 / 2 2',
    ],
    [
      'strum and hit are one hand',
      'pattern',
      'count 1 & 2 & 3 4; strum D . . U D .; hit . . palm . . body',
      '4 [8 8] 4 4',
    ],
    ['pick and strum are one hand', 'pattern', 'count 1 2 3 4; pick 4 . 4 .; strum . D . D', '4 4 4 4'],
  ])('%s', (_name, kind, grid, expected) => {
    expect(rhythmIn(gridLesson('4/4', grid, '| C |', kind))).toEqual([expected]);
  });

  test('voices keep their side where one of them is silent', () => {
    const text = gridLesson(
      '4/4',
      'count 1 2 3 4 | 1 2 3 4; pick 4p . 3p . 4p . . .; pick 2 1m 2i 1m 2i . . . stop',
      '| C | C |',
    );
    expect(rhythmIn(text)).toEqual(['4 4 4 4 / 2 2', '-2. r4 / 1']);
  });
});

describe('sounds that go on', () => {
  test('over the bar line: a tie', () => {
    const text = gridLesson('4/4', 'count 1 2 3 4 | 1 2 3 4; tune . . . 1:5 . . 1:3 .', '| C | C |', 'melody');
    expect(rhythmIn(text)).toEqual(['r2 r4 4', '-2 2']);
    const ties = barsOf(text).map((bar) => rhythmOf(bar).map(({ entries }) => entries.map(({ tiedOn }) => tiedOn)));
    expect(ties).toEqual([[[false, false, true]], [[false, false]]]);
  });

  test('a dot at the head of the next pattern is no new sound and no silence', () => {
    expect(rhythmIn(gridLesson('4/4', 'count 1 2 3 4; strum . D . D', '| C | C |'))).toEqual([
      'r4 4 -4 4',
      '-4 4 -4 4',
    ]);
  });

  test('but not from the bars of one chord into those of the next', () => {
    const over =
      'chord C 0-0-0-3\nchord F 2-0-1-0\npattern q\n  count 1 2 3 4\n  strum . D . .\nexercise e\n  over C, F\n  each q x2';
    expect(rhythmIn(over)).toEqual(['r4 2.', '-4 2.', 'r4 2.', '-4 2.']);
  });

  test('nor to a place where the next chord mutes the string that is written', () => {
    const over = (fret: string) =>
      `chord C 0-0-0-3\nchord X ${fret}-2-2-0\npattern q\n  count 1 2 3 4\n  pick 4p 3i 2m 1a\nprogression v\n  | C | X |\nexercise e\n  play v\n  with q`;
    expect(rhythmIn(over('x').replaceAll('X', 'D'))).toEqual(['4 4 4 4', 'r4 4 4 4']);
    expect(rhythmIn(over('2').replaceAll('X', 'D'))).toEqual(['4 4 4 4', '4 4 4 4']);
  });

  test('where no pattern follows, its end is the end of the sound', () => {
    const over = 'chord C 0-0-0-3\npattern q\n  count 1 2\n  strum D D\nexercise e\n  over C\n  each q';
    expect(rhythmIn(over)).toEqual(['4 4 r2']);
  });

  test('quick techniques take no time, timed ones have their stem and are not struck', () => {
    const [bar] = barsOf(gridLesson('4/4', 'count 1 2 3 4; tune 1:5h7 h8 1:3 .', '| C |', 'melody'));
    const [line] = bar === undefined ? [] : rhythmOf(bar);
    expect(line?.entries.map(({ value, slurredFrom }) => [value, slurredFrom ?? false])).toEqual([
      [4, false],
      [4, true],
      [2, false],
    ]);
  });
});
