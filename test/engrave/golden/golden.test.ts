import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { goldenDifference } from './golden-difference.ts';
import { goldenText } from './golden-text.ts';

// What is drawn of the samples, kept as text beside this file. After a change that is meant, look at the pictures, then write the
// files anew: npm run golden.

const SAMPLES = new URL('../../../client/samples/', import.meta.url);
const names = readdirSync(SAMPLES).filter((name) => name.endsWith('.lesson'));

describe('the samples look as they did', () => {
  test.each(names)('%s', (name) => {
    const lesson = readFileSync(new URL(name, SAMPLES), 'utf8');
    const golden = readFileSync(new URL(`drawn/${name.replace('.lesson', '.txt')}`, import.meta.url), 'utf8');
    expect(goldenDifference(golden, goldenText(lesson))).toEqual([]);
  });

  test('there is one golden file for each sample', () => {
    const files = readdirSync(new URL('drawn/', import.meta.url));
    expect(files.sort()).toEqual(names.map((name) => name.replace('.lesson', '.txt')).sort());
  });
});

describe('what a difference says', () => {
  const golden =
    '== system 1: Bars 1 to 2 | size 186 40, scale 1\nnumber “5” strong 3.6 middle at 12.3 40.1\nline strong 0.5 at 20 10 size 0.5 14\n';

  test.each([
    ['nothing where nothing changed', golden, []],
    ['nothing for a hair', golden.replace('12.3', '12.4'), []],
    [
      'what moved, and how far',
      golden.replace('12.3', '13.3'),
      ['system 1 (Bars 1 to 2 | size 186 40, scale 1): number “5” strong 3.6 middle went from 12.3 40.1 to 13.3 40.1'],
    ],
    [
      'what is new and what is gone',
      golden.replace('number “5”', 'number “7”'),
      [
        'system 1 (Bars 1 to 2 | size 186 40, scale 1): number “5” strong 3.6 middle is gone from 12.3 40.1',
        'system 1 (Bars 1 to 2 | size 186 40, scale 1): number “7” strong 3.6 middle is new at 12.3 40.1',
      ],
    ],
    [
      'what grew',
      golden.replace('0.5 14', '0.5 18'),
      ['system 1 (Bars 1 to 2 | size 186 40, scale 1): line strong 0.5 went from 20 10 0.5 14 to 20 10 0.5 18'],
    ],
    ['a whole line that is gone', '', ['system 1 (Bars 1 to 2 | size 186 40, scale 1) is gone']],
  ])('%s', (_name, drawn, said) => expect(goldenDifference(golden, drawn)).toEqual(said));

  test('only the first of many changes', () => {
    const many = Array.from({ length: 30 }, (_, index) => `number “${index}” strong at ${index} 1`).join('\n');
    const said = goldenDifference(`== system 1: Bar 1\n${many}\n`, '== system 1: Bar 1\n');
    expect(said.length).toBe(9);
    expect(said.at(-1)).toBe('system 1: and 22 more changes');
  });
});
