import { describe, expect, test } from 'vitest';
import { hover, hoverText, labels } from './asking.ts';

const SHAPES = 'chord C 0-0-0-3\nchord Em 0-4-3-2 fingers 0-3-2-1\nchord D7 2-0-2-0\n';

describe('a chord, wherever it stands', () => {
  test.each([
    ['its own line', 'chord E$0m 0-4-3-2', 'Em'],
    ['its frets', 'chord Em 0-4$0-3-2', '0-4-3-2'],
    ['a progression', `${SHAPES}progression v\n  | C | Em$0 |`, 'Em'],
    ['a mention', `${SHAPES}> Hold @E$0m.`, 'Em'],
    ['an exercise', `${SHAPES}exercise e\n  over C, $0Em`, 'Em'],
    ['a row of tune', `${SHAPES}melody m\n  E$0m 1:2 . . .`, 'Em'],
    ['a pick row for one chord', `${SHAPES}pattern p\n  count 1 2\n  pick $0Em 3 2`, 'Em'],
    ['a chord row', `${SHAPES}pattern p\n  strum D D D D\n  chord . . . Em$0`, 'Em'],
    ['show', `${SHAPES}show E$0m`, 'Em'],
    ['keep', `${SHAPES}progression v\n  | Em |\nfamily f\n  from v\n  keep Em$0 0-4-3-2`, 'Em'],
    ['an edition', `${SHAPES}also guitar, called six\nedition six\n  chord Em$0 0-2-2-0-0-0`, 'Em'],
  ])('%s', (_name, marked, about) => {
    const answer = hover(marked);
    expect(answer?.about).toBe(about);
    expect(answer?.card.markdown).toContain('**Em**');
    expect(answer?.card.picture?.svg).toMatch(/^<svg/);
    expect(answer?.card.picture?.alternative).not.toBe('');
  });

  test('says notes with octave and role, other names', () => {
    // Source of the notes: MIDI numbers of G4 C4 E4 A4 plus the frets 0 4 3 2.
    const text = hoverText('chord E$0m 0-4-3-2') ?? '';
    expect(text).toContain('Strings: 4 G4 (♭3), 3 E4 (1), 2 G4 (♭3), 1 B4 (5)');
    // A-1 must: the four open strings are C6 and Am7.
    expect(hoverText('chord C6$0 0-0-0-0')).toContain('Other names: Am7');
  });

  test('says how it is held: fingers, reach, whose hand has it, difficulty, and the caution', () => {
    // 0-4-3-2 with ring, middle and index finger. Source: charts of method books, common practice.
    const text = hoverText('chord E$0m 0-4-3-2') ?? '';
    expect(text).toMatch(/^Fingers: `0-3-2-1`, a suggestion\. [A-Z].*\. *$/m);
    // From the middle of the tips: fret 2 to 4 of 432 mm is 432 (2^(-2/12) - 2^(-4/12)) = 42 mm along the neck.
    expect(text).toMatch(/^Reach: index and ring finger 42 mm apart; at ease for a medium hand \(up to \d+ mm\)\. *$/m);
    expect(text).toMatch(/^Difficulty: \d\.\d of 10, elementary \(fingers \d\.\d, reach \d\.\d\)\. *$/m);
    expect(text).toContain(
      'Estimates for a typical hand. Warm up first; if it hurts, stop, and ask a teacher or clinician.',
    );
    expect(hoverText('chord E$0m 0-4-3-2 fingers 0-3-2-1')).toMatch(/^Fingers: `0-3-2-1`\. /m);
  });

  test.each([
    [
      'own hand at ease, others not',
      'hand large\nchord F$0 1-3-3-2-1-1',
      /at ease for a large hand .*A small and a child's hand: a stretch/,
    ],
    [
      'a stretch',
      'hand small\nchord F$0 1-3-3-2-1-1',
      /a stretch for a small hand .* medium and a large hand: at ease/,
    ],
    [
      'all alike',
      'chord E$0m 0-2-2-0-0-0',
      /^Reach: index and middle finger in one fret; at ease for a medium hand \([^)]*\)\.$/,
    ],
    ['out of reach', 'chord F$0 1-0-0-0-0-9', /out of reach for a medium hand \(about \d+ mm at most\)\.$/],
  ])('who reaches it: %s', (_name, marked, about) => {
    const reach = hoverText(`for guitar\n${marked}`)
      ?.split('\n')
      .find((line) => line.startsWith('Reach'));
    expect(reach?.trim()).toMatch(about);
  });

  test('more fingers than a hand has, fingers that do not work, and none at all', () => {
    expect(hoverText('for guitar\nchord F$0 1-2-3-4-5-0')).toContain(
      'Fingers: four of a medium hand cannot stop this.',
    );
    // The index finger across string 3 would stop it, which is to ring open.
    expect(hoverText('chord D$07 2-0-2-0 fingers 1-0-1-0')).toMatch(
      /Fingers: those of the lesson do not work; `\d-0-\d-0` would\./,
    );
    const open = hoverText('chord C6$0 0-0-0-0') ?? '';
    expect(open).toContain('no finger is needed');
    expect(open).not.toMatch(/Reach|Difficulty|Warm up/);
  });

  test('says what is left out, and that the root is not sounded', () => {
    // A-13 must: 2-0-2-0 is A C F# A, D7 without its root.
    expect(hoverText('chord D$07 2-0-2-0')).toContain('Left out: 1 (D). The root is not sounded');
  });

  test.each([
    ['A-3 must: string 1 at fret 3 is C, not C#', 'chord D$09 2-4-2-3', '1 C5 (♭7)'],
    ['A-20 must: E is spelled with G#, not Ab', 'chord E$0 1-4-0-2', '4 G#4 (3)'],
    ['A-21 must: Bb in F, not A#', 'key F\nchord B$0b 3-2-1-1', '4 Bb4 (1)'],
  ])('%s', (_name, marked, words) => expect(hoverText(marked)).toContain(words));

  test('an assumed shape is marked as assumed', () => {
    expect(hoverText('progression v\n  | C$0 |')).toContain('the lesson gives none');
    expect(hoverText(`${SHAPES}progression v\n  | C$0 |`)).not.toContain('the lesson gives none');
  });

  test('C-17 must: with a capo, the shape’s name and what it sounds', () => {
    const text = hoverText('for tenor ukulele, capo 2\nchord A$0m 2-0-0-0') ?? '';
    expect(text).toContain('**Am**');
    expect(text).toContain('With the capo at fret 2 it sounds Bm.');
  });

  test('D-5 must: no stroke is added for the lowest note', () => {
    expect(hoverText('chord F$0 2-0-1-0')).toContain('**F** ');
  });

  test('up to six further shapes of the same chord, the one in hand left out', () => {
    const shapes = labels('chord Em $0');
    const answer = hover(`chord E$0m ${shapes[2]}`);
    const further = shapes.filter((shape) => shape !== shapes[2]).slice(0, 6);
    const line = /Further shapes: (.*)/.exec(answer?.card.markdown ?? '')?.[1];
    expect(line).toBe(further.map((shape) => `\`${shape}\``).join(', '));
    expect(answer?.card.picture?.alternative).toContain(`Further shapes: ${further.join(', ')}.`);
    for (const shape of further) expect(answer?.card.picture?.svg).toContain(`>${shape}</text>`);
  });

  test.each([
    ['four strings', 'chord F#m7b5$0 2-4-2-3', 520],
    ['six strings', 'for guitar\nchord F#m7b5$0 2-x-2-2-1-x fingers 2-0-3-4-1-0', 520],
    ['eight strings', 'for tuned E2 A2 D3 G3 B3 E4 A4 D5 scale 640 mm\nprogression v\n  | F#m7b5$0 |', 900],
  ])('the picture stays small and narrow, on its own paper: %s', (_name, marked, widthPx) => {
    const picture = hover(marked)?.card.picture;
    expect(picture?.svg.length).toBeLessThanOrEqual(20_480);
    expect(picture?.widthPx).toBeLessThanOrEqual(widthPx);
    expect(picture?.heightPx).toBeLessThanOrEqual(260);
    // Ground and ink of its own: a hover follows no theme. 1.4.3 of WCAG 2.2 asks for 4.5 to 1; the ink has its test in shared/engrave.
    expect(picture?.svg).toMatch(/<rect[^>]* fill="#fffdf8"/);
    expect(picture?.svg).not.toContain('currentColor');
  });

  test('other names in the order that the place asks for', () => {
    // A-1: C6 at home in C, Am7 as the second chord of G.
    const names = (marked: string): string => /Other names: (.*)/.exec(hoverText(marked) ?? '')?.[1] ?? '';
    const lesson = (key: string, bars: string): string => `${key}chord F$0 0-0-0-0\nprogression v\n  ${bars}\n`;
    expect(names(lesson('key C\n', '| F |'))).toMatch(/^C6/);
    expect(names(lesson('key G\n', '| F |'))).toMatch(/^Am7/);
    expect(names(lesson('', '| G | F | D7 |'))).toMatch(/^Am7/);
  });

  test('on an edition the chord is held on its instrument', () => {
    const text = hoverText(
      'also baritone ukulele, same shapes, called bari\nchord G 0-2-3-2\nedition bari\n  chord G$0 as A 2-2-2-0',
    );
    expect(text).toContain('**A** `2-2-2-0`');
    // D3 and G3 of the baritone two frets up. Source: its usual tuning, twelve-tone equal temperament.
    expect(text).toContain('4 E3 (5), 3 A3 (1)');
  });

  test('no shape is known', () => {
    expect(hoverText('for tuned C4 C4 C4 C4 frets 5\nprogression v\n  | F#m7b5$0 |')).toContain('has no shape on');
  });

  test('a bare shape that is no chord is told as what it is', () => {
    expect(hoverText('> Try @0-x-x-$0x.')).toContain('It sounds the note G.');
  });

  test('a bare shape gets its best name', () => {
    const answer = hover('> Try @2-0-$01-0, then rest.');
    expect(answer?.about).toBe('2-0-1-0');
    expect(answer?.card.markdown).toContain('**F**');
  });
});

describe('a name, as its own lines say it', () => {
  const LESSON = `${SHAPES}progression verse\n  | C | Em |\npattern roll\n  pick 4 3 2 1\nmelody climb\n  tune 1:0 . 1:3 .\n`;
  test.each([
    ['a progression', 'exercise e\n  play ver$0se', 'verse', 'progression verse\n  | C | Em |'],
    ['a pattern', 'exercise e\n  play verse\n  with ro$0ll + climb', 'roll', 'pattern roll\n  pick 4 3 2 1'],
    ['a melody', 'exercise e\n  play verse\n  with roll + cli$0mb', 'climb', 'melody climb\n  tune 1:0 . 1:3 .'],
    ['what a pattern is like', 'pattern r\n  like ro$0ll', 'roll', 'pattern roll'],
    ['a mention', '> Play @ro$0ll, now.', 'roll', 'pattern roll'],
  ])('%s', (_name, marked, about, words) => {
    const answer = hover(`${LESSON}${marked}`);
    expect(answer?.about).toBe(about);
    expect(answer?.card.markdown).toContain(words);
  });
});

describe('marks', () => {
  const grid = (kind: string, rows: string): string =>
    `${SHAPES}${kind} g\n  count 1 & 2 & 3 4\n  ${rows}\nexercise e\n  over C, Em\n  each g`;

  test.each([
    ['pick', grid('pattern', 'pick 4p . 3i$0 . . .'), '3i', ['Beat 2', 'string 3', 'index (i)', 'C4', 'E4']],
    ['pick with its own fret', grid('pattern', 'pick 1:5$0 . . . . .'), '1:5', ['string 1 fret 5: D5']],
    ['a finger alone', grid('pattern', 'pick p$0 . . . . .'), 'p', ['string 4', 'thumb']],
    ['the thumb on the root', grid('pattern', 'pick Rp$0 . . . . .'), 'Rp', ['over C string 3', 'over Em string 3']],
    ['a tune', grid('melody', 'tune 1:3 . 1:5$0 . . .'), '1:5', ['D5']],
    ['a row over a chord', grid('melody', 'C 2:1$0 . . . . .'), '2:1', ['string 2 fret 1: F4']],
    ['strum', grid('pattern', 'strum D . U$0 . . .'), 'U', ['up']],
    ['strum of some strings', grid('pattern', 'strum D43$0 . . . . .'), 'D43', ['4', '3']],
    ['chunk', grid('pattern', 'strum chunk$0 . . . . .'), 'chunk', ['stop']],
    ['hit', grid('pattern', 'hit thumb4$0 . . . . .'), 'thumb4', ['the thumb slaps string 4']],
    ['stop', grid('pattern', 'pick 4 . stop$0 . . .'), 'stop', ['all strings stop']],
    ['hold', grid('pattern', 'pick 4 .$0 . . . .'), '.', ['goes on']],
    ['fingers', grid('melody', 'tune 1:3 . . . . .\n  fingers 3$0 . . . . .'), '3', ['finger 3']],
    ['words', grid('pattern', 'strum D . . . . .\n  words Lan-$0 . . . . .'), 'Lan-', ['Lan-']],
    ['a count', `${SHAPES}pattern g\n  count 1 &$0 2 & 3 4\n  strum D . . . . .`, '&', ['Beat 1 and 1/2']],
    [
      'a count in another meter',
      `${SHAPES}pattern g\n  count 1 2 3 4 | 6/8 1 2 3 4 5$0 6\n  strum D . . . D . . . . .`,
      '5',
      ['Beat 2 and 1/3'],
    ],
    [
      'a count on the line behind it',
      `${SHAPES}pattern g\n  count 1 2 3 4 | 6/8 1 2 3 4 5 6\n  strum D . . . D . . . . .\n  count 1 2 3 4$0 5 6\n  strum D . . . . .`,
      '4',
      ['Beat 2'],
    ],
    ['a technique', grid('melody', 'tune 1:5 h7$0 . . . .'), 'h7', ['hammer']],
  ])('%s', (_name, marked, about, words) => {
    const answer = hover(marked);
    expect(answer?.about).toBe(about);
    for (const word of words) expect(hoverText(marked)).toContain(word);
  });
});

describe('C-14 must: the same pitch on two strings', () => {
  const tune = (tuning: string, marks: string) => hoverText(`for tenor ukulele, ${tuning}\nmelody m\n  tune ${marks}`);
  test('string 2 at fret 3 is the open string 4 of a high G, and an octave above that of a low G', () => {
    expect(tune('high G', '2:$03 . . .')).toContain('G4');
    expect(tune('high G', '4:$00 . . .')).toContain('G4');
    expect(tune('low G', '2:$03 . . .')).toContain('G4');
    // No check warns of the swap: a lesson does not say which note it was before.
    expect(tune('low G', '4:$00 . . .')).toContain('G3');
  });
});

describe('keywords and nothing', () => {
  test.each([
    ['key', 'k$0ey C'],
    ['progression', 'progress$0ion v'],
    ['count', 'pattern p\n  cou$0nt 1 2 3 4'],
    ['restart', 'exercise e\n  re$0start bar'],
    ['within', 'family f\n  wi$0thin 0 to 7'],
    ['capo', 'edition six\n  ca$0po 2'],
    ['count', 'edition six\n  pattern p\n    cou$0nt 1 2 3 4'],
  ])('%s: %s', (word, marked) => {
    const answer = hover(marked);
    expect(answer?.about).toBe(word);
    expect(answer?.card.markdown).toContain(`\`${word}\` `);
    expect(answer?.card.markdown).toContain('```handspan\n');
  });

  test.each(['// C#$0', '> C#$0 and more', 'lesson Em$0ily', '$0', 'key C\n\n$0', 'zzz$0 C'])('nothing: %s', (marked) =>
    expect(hover(marked)).toBeUndefined(),
  );

  test('what a lesson says is shown letter by letter, not read as Markdown', () => {
    const text = hover('chord C$0(add9) 0-2-0-3')?.card.markdown ?? '';
    expect(text).toContain('C\\(add9\\)');
  });
});
