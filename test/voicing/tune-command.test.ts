import { describe, expect, test } from 'vitest';
import type { ExitCode } from '../../server/command-line/terminal.ts';
import { tune } from '../../server/command-line/tune.ts';
import { CAUTION_ON_STRETCH } from '../../shared/hand/reach.ts';
import { problemsOf } from '../../shared/lesson/check/problems.ts';
import { openDocument } from '../../shared/lesson/document.ts';

async function run(
  ...words: readonly string[]
): Promise<{ readonly code: ExitCode | undefined; readonly out: string }> {
  let out = '';
  const code = await tune.run(words, {
    out: (text) => {
      out += text;
    },
    complain: () => undefined,
  });
  return { code, out };
}

describe('handspan tune', () => {
  test('prints lesson text, and the caution last', async () => {
    const { code, out } = await run('Em C G D', '--contour', 'arch', '--shapes', '0432 0003 0232 2220');
    expect(code).toBe(0);
    expect(out).toMatch(/^Tunes \(arch\) over Em \| C \| G \| D on tenor ukulele, high G, in E minor: best first\n/);
    expect(out.trimEnd().endsWith(CAUTION_ON_STRETCH)).toBe(true);
    const [, ...lines] = out.split('\n');
    const lesson = `lesson  Tunes\nfor  tenor ukulele, high G\n${lines.filter((line) => !line.startsWith('Fingers are')).join('\n')}`;
    expect(problemsOf(openDocument(lesson)).filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(lesson).toContain('melody  new-tune\n');
  });

  test.each([['| F | Dm |'], ['F | Dm |'], ['| F | Dm'], ['| F | Dm ||'], ['|: F | Dm :|']])(
    'takes bars as they stand in a lesson: %s',
    async (bars) => {
      const { code, out } = await run(bars, '--max', '1');
      expect(code).toBe(0);
      expect(out).toMatch(/^Tunes \(arch\) over F \| Dm on /);
    },
  );

  test('an empty bar within is told, without a blank for its name', async () => {
    await expect(run('F | | Dm')).rejects.toThrow(/^This bar is empty/);
  });

  test('says the same to scripts', async () => {
    const { code, out } = await run(
      'Em C',
      '--key',
      'E minor',
      '--ring',
      '1',
      '--tempo',
      '60',
      '--max',
      '1',
      '--name',
      'song',
      '--json',
    );
    const answer = JSON.parse(out);
    expect(code).toBe(0);
    expect(answer).toMatchObject({ on: 'tenor ukulele, high G', hand: 'medium', scale: 'E minor', tempo: 60 });
    expect(answer.chords[0]).toMatchObject({ chord: 'Em', shape: '0-4-3-2' });
    expect(answer.tunes).toHaveLength(1);
    expect(answer.tunes[0].text).toMatch(/^melody {2}song\n {2}ring +1\n/);
    expect(answer.tunes[0].notes[0]).toMatchObject({ bar: 1, at: 1, chord: 'Em', inChord: true });
  });

  test('places a given tune, and says where it cannot be', async () => {
    expect(await run('C', '--notes', 'C4 E4 G4 C5')).toMatchObject({ code: 0 });
    // G 0-2-3-2 has the index finger on string 3; C4 is that string open.
    const lifted = await run('G', '--notes', 'G4 A4 B4 C4', '--shapes', '0232');
    expect(lifted.out).toContain('\nBar 1, count 4: C4 at 3:0 lifts the index finger of G.\n');
    const { code, out } = await run('C', '--notes', 'G3 C4');
    expect(code).toBe(1);
    expect(out).toContain('1 of 2 notes has a place');
    expect(out).toContain('G3 is lower than any note');
    expect(out).toContain('that changes the tune');
    const json = JSON.parse((await run('C', '--notes', 'G3 C4', '--json')).out);
    expect(json.nowhere[0]).toMatchObject({ bar: 1, at: 1, pitch: 'G3', chord: 'C' });
    expect(json.nowhere[0].instead).toHaveLength(3);
  });

  test('takes bars as a lesson has them: a pickup, another meter, no chord', async () => {
    const { out } = await run('count 4 | Em | C | 2/4 G | 4/4 NC | D | Em / / ', '--max', '1', '--json');
    const [found] = JSON.parse(out).tunes;
    expect(found.text).toMatch(/count +4 +& +\| 1 /);
    expect(found.text).toMatch(/2\/4 1 /);
    expect(found.text).toMatch(/tune .*stop/);
    const bars = new Set(found.notes.map(({ bar }: { readonly bar: number }) => bar));
    // The pickup is 0, and nothing is played in bar 3, which has no chord.
    expect([...bars]).toEqual([0, 1, 2, 4, 5]);
    const last = found.notes.at(-1);
    expect(last.at + last.lasts).toBe(4);
    const lesson = `lesson  Bars\ntempo 60\nprogression  verse\n  count 4\n  | Em | C | 2/4 G | 4/4 NC | D | Em / / |\n${found.text}exercise Sing\n  play verse\n  with new-tune\n`;
    expect(problemsOf(openDocument(lesson)).filter(({ severity }) => severity !== 'hint')).toEqual([]);
  });

  test('places a given tune over a pickup and another meter, and not where no chord is played', async () => {
    const { code, out } = await run('count 4 | C | F | 2/4 G7 | 4/4 C', '--notes', 'G4 | A4 C5 | B4 G4 | C5');
    expect(code).toBe(0);
    expect(out).toContain('every note has a place');
    const rest = await run('C | NC | C', '--notes', 'C4 | D4 | E4');
    expect(rest.code).toBe(1);
    expect(rest.out).toContain('Bar 2, count 1: No chord is played there, so there is no shape to have D4 inside.');
  });

  test('a capo is the nut: what the hand holds is named', async () => {
    const { out } = await run('C F', '--on', 'tenor ukulele, high G, capo 2', '--max', '1');
    const without = await run('C F', '--max', '1');
    const body = (text: string) => text.slice(text.indexOf('melody'), text.indexOf('Fingers'));
    expect(out).toContain('capo 2');
    expect(body(out).match(/melody/g)).toEqual(body(without.out).match(/melody/g));
    expect(out).toContain('chord  C  0-0-0-3');
  });

  test('no tune is no fault of the call', async () => {
    const { code, out } = await run('Em C G D', '--tempo', '390');
    expect(code).toBe(0);
    expect(out).toMatch(/none\. At 390 beats a minute/);
  });

  test.each<[string, readonly string[], RegExp]>([
    ['nothing', [], /say the chords/],
    ['no chord', ['Em Hx'], /Hx/],
    ['a slip in the contour', ['Em C', '--contour', 'rize'], /did you mean rise/],
    ['two wishes at once', ['Em C', '--contour', 'rise', '--notes', 'E4'], /one of the two/],
    ['too few shapes', ['Em C G', '--shapes', '0432 0003'], /2 for 3 chords/],
    ['a shape of too many frets', ['Em', '--shapes', '04325'], /--shapes: 5 frets for 4 strings/],
    ['two shapes of one name', ['Em C Em', '--shapes', '0432 0003 9777'], /give the second chord a label/],
    ['no such string', ['Em C', '--ring', '5'], /not a string of/],
    ['no such key', ['Em C', '--key', 'H'], /--key/],
    ['no such scale', ['Em C', '--scale', 'E minor pentatonik'], /--scale: .*not a scale known here/],
    ['key and scale', ['Em C', '--key', 'E minor', '--scale', 'E blues'], /not both/],
    ['a tempo that is none', ['Em C', '--tempo', 'fast'], /--tempo/],
    ['a meter that is none', ['Em C', '--meter', '4/5'], /--meter/],
    ['counts that are none', ['Em C', '--rhythm', '1 9'], /--rhythm: .*there is no 9/],
    ['notes that are none', ['Em C', '--notes', 'E4 X'], /--notes/],
    ['a name of two words', ['Em C', '--name', 'my tune'], /--name/],
    ['bars that do not add up', ['Em | C / / | G'], /Bar 2 has 3 beats; in 4\/4 it has 4/],
    ['nothing to repeat', ['% | C'], /first bar has none/],
    ['an instrument that is none', ['Em', '--on', 'flute'], /--on/],
  ])('refuses a call that makes no sense: %s', async (_name, words, about) => {
    await expect(run(...words)).rejects.toThrow(about);
  });
});
