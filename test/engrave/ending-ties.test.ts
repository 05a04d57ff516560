import { expect, test } from 'vitest';
import { systemsOf } from '../../shared/engrave/tab-system.ts';
import { scoreOf } from '../score/scoring.ts';
import { gridLesson } from '../score/telling-rhythm.ts';
import { inkedOf } from './collisions/inked.ts';

/** Widths of the ties of an exercise on one line, from left to right. Unit: mm. */
function tieWidths(tune: string): readonly number[] {
  const count = '|: 1 2 3 4 | 1st 1 2 3 4 :| 2nd 1 2 3 4 | 1-4 ||';
  const score = scoreOf(gridLesson('4/4', `count ${count}; tune ${tune}`, '|: C | 1st C :| 2nd C | C ||', 'melody'));
  const [pass] = score.passes;
  const systems = pass === undefined ? [] : systemsOf(score, pass, { widthMm: 190 });
  expect(systems).toHaveLength(1);
  return inkedOf(systems[0]?.drawing ?? { items: [] })
    .filter(({ item }) => item.kind === 'path' && /^MCCZ$/.test(item.steps.map(([step]) => step).join('')))
    .sort((one, other) => one.box.x - other.box.x)
    .map(({ box }) => box.width);
}

// Source: E. Gould, Behind Bars (2011), on ties and repeats, from memory: a tie into a later ending begins at its bar line.
test('no tie leads from the end of one ending into the next', () => {
  const [whole = 0, part = 0, ...more] = tieWidths('1:0 . . 1:5 . . 1:3 1:2 . . 1:7 . 1:0');
  expect(more).toEqual([]);
  expect(whole).toBeGreaterThan(6);
  expect(part).toBeLessThan(4);
  // Where the repeat begins with nothing new, the first ending ties over to it, and not to the second.
  const [intoFirst = 0, ...parts] = tieWidths('. . 1:0 1:5 . . 1:3 1:2 . . 1:7 . 1:0').slice(1);
  expect(intoFirst).toBeGreaterThan(6);
  expect(parts).toHaveLength(2);
});
