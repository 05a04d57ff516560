import { describe, expect, test } from 'vitest';
import { errorsIn, playedIn, read } from './reading.ts';

/** Rows with other strings empty below them. */
function tab(row: string): string {
  const empty = row.replaceAll(/[^|]/g, '-');
  return [`A|${row}`, ...['E', 'C', 'G'].map((name) => `${name}|${empty}`)].join('\n');
}

// Writers leave one or two dashes behind each bar line for the eye, and as much between notes whatever their frets. Common practice,
// no source: right values are what a reader of such a line would clap.
describe('room behind a bar line is no time', () => {
  test.each([
    ['five equal notes behind two dashes', '--0--2--3--2--0--|', '1=1:0 &=1:2 2=1:3 &=1:2 3=1:0'],
    ['and behind one', '-0--2--3--2--0--|', '1=1:0 &=1:2 2=1:3 &=1:2 3=1:0'],
    ['four equal notes', '--0--2--3--5--|', '1=1:0 2=1:2 3=1:3 4=1:5'],
    ['three equal notes, the last is held', '-0---2---3---|', '1=1:0 2=1:2 3=1:3'],
    ['a longer note among equal ones', '--0--2-----3--2--0--|', '1=1:0 &=1:2 &=1:3 3=1:2 &=1:0'],
    [
      'bars of other widths',
      '--0--2--3--|--5--3--2--0--|--7--|',
      '1=1:0 2=1:2 3=1:3 | 1=1:5 2=1:3 3=1:2 4=1:0 | 1=1:7',
    ],
    [
      'frets of two figures',
      '--8--10--12--10--|--8--7--5--3--|',
      '1=1:8 2=1:10 3=1:12 4=1:10 | 1=1:8 2=1:7 3=1:5 4=1:3',
    ],
    [
      'eighths, quarters and halves in bars of one width',
      '-0-2-3-5-7-8-7-5-|-5---3---2---0---|-0-------2-------|',
      '1=1:0 &=1:2 2=1:3 &=1:5 3=1:7 &=1:8 4=1:7 &=1:5 | 1=1:5 2=1:3 3=1:2 4=1:0 | 1=1:0 3=1:2',
    ],
  ])('%s', (_name, row, plays) => {
    const reading = read(tab(row));
    expect(playedIn(reading)).toBe(plays);
    expect(errorsIn(reading)).toEqual([]);
    expect(reading.rhythmIsGuess).toBe(true);
  });

  test.each([
    [
      'other bars begin right behind their room',
      '--0--2--3--5--|-----2--3--5--|',
      '1=1:0 2=1:2 3=1:3 4=1:5 | 2=1:2 3=1:3 4=1:5',
    ],
    ['a whole step of room, with which the bar comes out', '----0---2---3---|', '2=1:0 3=1:2 4=1:3'],
  ])('a note begins late where %s', (_name, row, plays) => {
    expect(playedIn(read(tab(row)))).toBe(plays);
  });

  test('where another string of the bar begins right behind the room', () => {
    const text = 'A|-----3--5--7--|\nE|--------------|\nC|--0-----------|\nG|--------------|';
    expect(playedIn(read(text))).toBe('1=3:0 2=1:3 3=1:5 4=1:7');
  });
});
