import { describe, expect, test } from 'vitest';
import { withRepeatTies } from '../../shared/score/repeat-ties.ts';
import { rhythmOf } from '../../shared/score/rhythm.ts';
import { soundingNotes } from '../../shared/score/sounding.ts';
import { barsOf, inQuarters } from './scoring.ts';
import { gridLesson, rhythmIn } from './telling-rhythm.ts';

const PUSHED = 'count 1 & 2 & 3 & 4 &; strum . U D U D U D U';

/** How the first entry of each bar is written. */
function firstEntries(progression: string, grid = PUSHED): readonly string[] {
  const bars = barsOf(gridLesson('4/4', grid, progression));
  return withRepeatTies(bars).map((bar) => rhythmOf(bar)[0]?.entries[0]?.kind ?? 'none');
}

// Source: E. Gould, Behind Bars (2011), on ties and repeats, from memory: a tie out of a repeat's end is taken up by one that leads
// into the first note of the repeat.
describe('a tie out of the end of a repeat', () => {
  test('without it the first bar rests', () => {
    expect(rhythmIn(gridLesson('4/4', PUSHED, '|: C | C :| C | C |'))[0]).toMatch(/^r8/);
  });

  test.each([
    ['is taken up where the repeat begins', '|: C | C :| C | C |', ['tied', 'tied', 'tied', 'tied']],
    ['also from a repeat that follows another', '|: C :|: C :| C |', ['tied', 'tied', 'tied']],
    ['is none where no sound goes on over the sign', '|: C | C :|', ['rest', 'tied']],
    ['is none where nothing is repeated', '| C | C |', ['rest', 'tied']],
    ['goes back to the beginning where no sign opens the repeat', '| C | C :| C |', ['tied', 'tied', 'tied']],
    ['does not reach a bar before the repeat', '| C |: C :| C |', ['rest', 'tied', 'tied']],
  ])('%s', (_name, progression, kinds) => expect(firstEntries(progression)).toEqual(kinds));

  test('ends where something is struck as the repeat begins', () => {
    const grid = 'count 1 2 3 4 | 1 2 3 4; strum D D D D | . D D D';
    const bars = barsOf(gridLesson('4/4', grid, '|: C :| C |'));
    expect(withRepeatTies(bars)).toBe(bars);
  });

  test('bars without such a tie are the same value', () => {
    const bars = barsOf(gridLesson('4/4', 'count 1 2 3 4; strum D D D D', '|: C | C :| C |'));
    expect(withRepeatTies(bars)).toBe(bars);
  });
});

// Source: the same: every ending is come to from the bar before the first one.
describe('a tie into a later ending', () => {
  const lesson = (count: string, tune: string, bars = '|: C | 1st C :| 2nd C | C ||') =>
    gridLesson('4/4', `count ${count}; tune ${tune}`, bars, 'melody');
  const inEndings = (tune: string) => lesson('|: 1 2 3 4 | 1st 1 2 3 4 :| 2nd 1 2 3 4 | 1-4 ||', tune);
  const heard = (text: string) =>
    soundingNotes(barsOf(text)).map(({ fret, start, end }) => `${fret} ${inQuarters(start)}–${inQuarters(end)}`);

  test('comes from the bar before the first ending, is heard on from there, and the first ending ties nothing over', () => {
    const text = inEndings('1:0 . . 1:5 . . 1:3 1:2 . . 1:7 . 1:0');
    expect(rhythmIn(text)).toEqual(['2. 4', '-2 4 4', '-2 2', '1']);
    const tiedOn = barsOf(text).map((bar) => bar.events.at(-1)?.goesOn === true);
    expect(tiedOn).toEqual([true, false, false, false]);
    expect(heard(text)).toEqual(['0 0–3', '5 3–6', '3 6–7', '2 7–8', '0 8–11', '5 11–14', '7 14–16', '0 16–20']);
  });

  test('is there also where something is struck at the head of the first ending', () => {
    const text = inEndings('1:0 . . 1:5 1:2 . 1:3 1:2 . . 1:7 . 1:0');
    expect(rhythmIn(text)).toEqual(['2. 4', '2 4 4', '-2 2', '1']);
    expect(heard(text)).toContain('5 11–14');
  });

  test('is none where the bar before the first ending ends in silence', () => {
    const text = inEndings('1:0 . . stop 1:2 . 1:3 1:2 . . 1:7 . 1:0');
    expect(rhythmIn(text)).toEqual(['2. r4', '2 4 4', 'r2 2', '1']);
    expect(heard(text).at(-2)).toBe('7 14–16');
  });

  test('goes through an ending in which nothing is struck', () => {
    const text = lesson('|: 1 2 3 4 | 1st 1 2-4 :| 2nd 1-4 | 1 2-4 ||', '1:0 . . 1:5 1:2 . . . 1:7');
    expect(rhythmIn(text)).toEqual(['2. 4', '1', '-1', '-4 2.']);
    expect(heard(text).slice(-2)).toEqual(['5 11–17', '7 17–20']);
  });

  test('the sound before the end of a repeat that is tied over is heard on where the repeat begins again', () => {
    const text = lesson('1 2 3 4 | 1 2 3 4', '. . 1:2 . 1:3 . . 1:5', '|: C | C :|');
    expect(heard(text)).toEqual(['2 2–4', '3 4–7', '5 7–8', '2 10–12', '3 12–15', '5 15–16']);
    const pushed = lesson('1 2 3 4', '. 1:2 . 1:3', '|: C | C :| C |');
    expect(heard(pushed)).toContain('3 7–9');
  });
});
