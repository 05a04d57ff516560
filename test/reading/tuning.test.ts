import { describe, expect, test } from 'vitest';
import { readText } from '../../shared/reading/read-text.ts';
import { playedIn } from './reading.ts';

function tab(names: string): string {
  return names
    .split(' ')
    .map((name, at) => `${name}|${at === 0 ? '-0-2-3-5-|' : '---------|'}`)
    .join('\n');
}

// Usual tunings, string 1 first: ukulele A E C G with the fourth high, baritone E B G D, guitar E B G D A E. Common practice, no source.
describe('where nobody says the instrument it is that of the strings that the text names, and this is told', () => {
  test.each([
    ['a e c g', /^Read for soprano ukulele, high G, since the text names its strings g c e a\b/],
    ['A E C g', /^Read for soprano ukulele, high G, .* g C E A\b/],
    ['a e c G', /^Read for .*ukulele, low G, /],
    ['e b g d', /^Read for baritone ukulele, .* d g b e\b/],
    ['e B G D A E', /^Read for guitar, since the text names its strings E A D G B e\b/],
    ['1 2 3 4', /^Read for .*, since the text has 4 strings and does not name them\.$/],
    ['F B E A', /which no instrument here has; the top line is read as string 1\.$/],
  ])('%s', (names, told) => {
    const reading = readText(tab(names));
    expect(reading.told[0]).toMatch(told);
    expect(reading.text).toContain(`// ${reading.told[0]}`);
    expect(playedIn(reading)).toBe('1=1:0 2=1:2 3=1:3 4=1:5');
  });

  test('strings named from the highest number down', () => {
    const reading = readText(tab('g c e a'));
    expect(reading.told[0]).toMatch(/^Read for soprano ukulele, high G/);
    expect(playedIn(reading)).toBe('1=4:0 2=4:2 3=4:3 4=4:5');
  });
});
