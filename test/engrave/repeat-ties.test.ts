import { describe, expect, test } from 'vitest';
import { withRepeatTies } from '../../shared/engrave/repeat-ties.ts';
import { rhythmOf } from '../../shared/score/rhythm.ts';
import { barsOf } from '../score/scoring.ts';
import { gridLesson, rhythmIn } from '../score/telling-rhythm.ts';

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
