import { describe, expect, test } from 'vitest';
import type { WrittenBar } from '../../../shared/lesson/syntax/statement.ts';
import { read } from './reading.ts';

/** The bars of a progression, each as its signs and items: `|: 1st G / |`. */
function barsOf(lines: string): readonly string[] {
  const { statement, text } = read(`progression v\n${lines.replace(/^/gm, '  ')}`).entry;
  const bars = statement.kind === 'progression' ? statement.lines.flatMap((line) => line.bars) : [];
  return bars.map((bar) => printBar(bar, text));
}

function printBar({ opens, closes, ending, meter, items, times }: WrittenBar, text: string): string {
  return [
    opens?.text,
    ending && `ending ${ending.numbers.join('+')}`,
    meter && `in ${meter.meter.counts}/${meter.meter.unit}`,
    ...items.map(({ kind, span }) => (kind === 'chord' ? text.slice(span.start, span.end) : kind)),
    closes?.text,
    times && `times ${times}`,
  ]
    .filter((part) => part !== undefined)
    .join(' ');
}

describe('bars', () => {
  test.each([
    ['four bars', '| Em | C | G | D |', ['| Em |', '| C |', '| G |', '| D |']],
    ['without outer lines', 'Em | C', ['Em |', '| C']],
    ['without blanks', '|Em|C|', ['| Em |', '| C |']],
    ['beats', '| G / / D |', ['| G beat beat D |']],
    ['the bar before, and silence', '| G | % | NC | n.c. |', ['| G |', '| same |', '| silence |', '| silence |']],
    [
      'repeat with endings (C-15)',
      '|: A | B | 1st C :| 2nd D | E ||',
      ['|: A |', '| B |', '| ending 1 C :|', ':| ending 2 D |', '| E ||'],
    ],
    ['joined endings', '|: A | 1st+2nd C :| 3rd D ||', ['|: A |', '| ending 1+2 C :|', ':| ending 3 D ||']],
    ['three times', '|: A | B :| x3', ['|: A |', '| B :| times 3']],
    ['back to back', '|: A :|: B :|', ['|: A :|:', ':|: B :|']],
    ['thick repeats', '||: A :||', ['|: A :|']],
    ['another meter', '| 2/4 C | 4/4 G |', ['| in 2/4 C |', '| in 4/4 G |']],
    ['a chord over a bass is no meter', '| G/B | 2/4 C/E |', ['| G/B |', '| in 2/4 C/E |']],
    ['a labelled chord', '| Em.high |', ['| Em.high |']],
  ])('%s', (_name, lines, bars) => {
    expect(barsOf(lines)).toEqual(bars);
    expect(read(`progression v\n  ${lines}`).problems).toEqual([]);
  });

  test('the first bars may stand behind the name', () => {
    const { says } = read('progression v | Em | C |\n  | G |');
    expect(says).toMatchObject({ name: 'v', lines: [{ bars: [{}, {}] }, { bars: [{}] }] });
  });

  test('a pickup', () =>
    expect(read('progression v\n  count 4\n  | C | F |').says).toMatchObject({ pickupCount: { count: 4 } }));
});

describe('words under a line', () => {
  test.each([
    ['syllables and bars', 'words Lan-terns go | down', [['Lan-', 'terns', 'go'], ['down']]],
    ['outer lines frame only', 'words | la | li |', [['la'], ['li']]],
    ['a hold', 'words la | _ | li', [['la'], ['_'], ['li']]],
    ['a comma stays with its word', 'words oh, my | dear', [['oh,', 'my'], ['dear']]],
    ['signs as typed', 'words don’t | stop', [['don’t'], ['stop']]],
  ])('%s', (_name, words, bars) => {
    const { says, problems } = read(`progression v\n  | C | F | G |\n  ${words}`);
    expect(says).toMatchObject({ lines: [{ words: [{ verse: 1, bars }] }] });
    expect(problems).toEqual([]);
  });

  test('a second verse', () => {
    expect(read('progression v\n  | C |\n  words la\n  words 2 li').says).toMatchObject({
      lines: [{ words: [{ verse: 1 }, { verse: 2, bars: [['li']] }] }],
    });
  });
});

describe('slips and half-typed lines', () => {
  test.each([
    ['progression', ['hint progression.no-name ""']],
    ['progression Em\n  | C |', ['error name.is-chord "Em"']],
    ['progression a_b\n  | C |', ['error name.signs "a_b"']],
    ['progression v\n  | C | | F |', ['warning bar.empty " "']],
    ['progression v\n  | Zed |', ['error chord.without-root "Zed"']],
    ['progression v\n  | C 2 | F |', ['error bar.number "2"']],
    ['progression v\n  words la', ['error words.no-bars "words la"']],
    ['progression v\n  count', ['hint count.empty ""']],
    ['progression v\n  count four', ['error count.unreadable "count four"']],
    ['progression v\n  | C |\n  Words la', ['hint keyword.case "Words"']],
    ['progression v\n  ring 1', ['error keyword.place "ring"']],
    ['progression v\n  | C', []],
    ['progression v\n  |', []],
  ])('%j', (snippet, problems) => expect(read(snippet).problems).toEqual(problems));
});
