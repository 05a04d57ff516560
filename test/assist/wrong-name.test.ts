import { describe, expect, test } from 'vitest';
import { fixedBy, fixes, messages, problemCodes } from './asking.ts';

// Sounding notes: MIDI numbers of the open strings plus the frets. Names of the trade: the naming cases of a player's handbook,
// kept in the tests of shared/voicing; common practice, no source, where nothing else is said.

/** One chord line with a wrong name, and the chord in every kind of place that may hold one. */
const EVERYWHERE = `for tenor ukulele, high G
also guitar, called six
chord F6 0-5-5-0 fingers 0-1-1-0
chord C 0-0-0-3
progression verse
  | F6 | C / F6 / | 1st F6 :| 2nd C ||
  > After @F6 rest.
pattern roll
  count 1 2 3 4
  pick F6 4 3 2 1
pattern push
  strum D D D D
  chord . . . F6
melody climb
  F6 1:0 . 1:3 .
exercise One
  over F6, C x2
  each roll
  > Hold @F6, then let go.
family drone
  from verse
  keep F6 0-5-5-0
> Here is @F6: listen.
show F6 verse
edition six
  chord F6 1-3-3-2-1-1
  melody climb
    F6 1:1 . 1:3 .
  > On six strings @F6 is fuller.
`;

describe('the fix of a wrong name renames the chord wherever it stands', () => {
  test('in bars, endings, grids, rows, lists, families, prose and editions', () => {
    expect(fixedBy(EVERYWHERE, 'chord.name')).toEqual([EVERYWHERE.replaceAll('F6', 'F(add9)')]);
  });

  test('an edition’s own name for the chord stays', () => {
    const lesson =
      'also baritone ukulele, same shapes, called bari\nchord F6 0-5-5-0\nedition bari\n  chord F6 as C 5-5-5-5\n';
    expect(fixedBy(lesson, 'chord.name')[0]).toContain('chord F(add9) as C 5-5-5-5');
  });

  test('a plain name that means the labelled shape goes with it', () => {
    expect(fixedBy('chord F6.low 0-5-5-0\nprogression v\n  | F6 | F6.low |\n> @F6\n', 'chord.name')).toEqual([
      'chord F(add9).low 0-5-5-0\nprogression v\n  | F(add9) | F(add9).low |\n> @F(add9)\n',
    ]);
  });

  test('where the right name has a line already, the shape becomes a further one of it', () => {
    // 5-4-3-3 on G4 C4 E4 A4 is C E G C.
    const lesson = 'chord C 0-0-0-3\nchord F 5-4-3-3\nprogression v\n  | C | F |\n';
    const [mended = ''] = fixedBy(lesson, 'chord.name');
    expect(mended).toBe('chord C 0-0-0-3\nchord C.2 5-4-3-3\nprogression v\n  | C | C.2 |\n');
    expect(problemCodes(mended)).toEqual([]);
  });
});

describe('names that say the same notes are all offered', () => {
  const open = (rest: string): string => `chord F 0-0-0-0\n${rest}`;

  // A-1 of the player cases: G4 C4 E4 A4 is C6 and Am7; C6 first when nothing else is said.
  test('A-1: C6 and Am7, C6 preferred', () => {
    expect(fixes(open(''), 'chord.name')).toEqual([
      '* Name it C6 wherever it is used',
      'Name it Am7 wherever it is used',
    ]);
    expect(messages(open(''), 'chord.name')).toEqual(['0-0-0-0 sounds G C E A: C6, also called Am7; you wrote F.']);
  });

  // "as home chord in C say C6; as the second chord of G (before D7) or the sixth of C say Am7".
  test.each([
    ['home in C', 'key C\n', 'C6'],
    ['the second chord of G', 'key G\n', 'Am7'],
    ['on the way to D7', 'progression v\n  | G | F | D7 | G |\n', 'Am7'],
  ])('A-1: the place decides which comes first: %s', (_name, rest, first) => {
    expect(fixes(open(rest), 'chord.name')[0]).toBe(`* Name it ${first} wherever it is used`);
  });

  test('of the four names of a diminished seventh three are offered, the one that leads on first', () => {
    // 0-1-0-1 sounds G C# E A#; a leading tone diminished seventh stands a semitone below its goal. Source: any harmony primer.
    const offered = fixes('chord C 0-1-0-1\nprogression v\n  | C | D |\n', 'chord.name');
    expect(offered).toHaveLength(3);
    expect(offered[0]).toBe('* Name it C#dim7 wherever it is used');
  });

  test('one name where the notes leave no doubt', () => {
    expect(fixes('chord F 0-0-0-3\n', 'chord.name')).toEqual(['* Name it C wherever it is used']);
  });

  test.each([
    // G C E A under a bass note of the chord itself: a stroke says nothing more. Common practice, no source.
    ['no name with a stroke beside one without', 'for guitar\nchord F 3-x-2-2-1-0\n', ['C6', 'Am7']],
    // G D F C is G7sus4; C and F could be made its root too, in names that nobody says. Common practice, no source.
    ['no name that is far longer', 'chord Gm 0-2-1-3\n', ['G7sus4']],
  ])('%s', (_name, lesson, names) => {
    expect(fixes(lesson, 'chord.name').map((title) => title.replace(/^\* /, ''))).toEqual(
      names.map((name) => `Name it ${name} wherever it is used`),
    );
  });

  test('notes are spelled as the name spells them', () => {
    // 1-2-1-2 is G# D F B; before Am it is the chord on its leading tone. Source: any harmony primer.
    const lesson = 'key A minor\nchord E 1-2-1-2\nprogression v\n  | E | Am |\n';
    expect(messages(lesson, 'chord.name')[0]).toMatch(/^1-2-1-2 sounds G# D F B: G#dim7, also called /);
  });

  test('what is no chord is told as what it is', () => {
    expect(messages('chord F 0-x-x-x\n', 'chord.name')).toEqual(['0-x-x-x sounds the note G; that is not F.']);
    expect(fixes('chord F 0-x-x-x\n', 'chord.name')).toEqual([]);
  });

  test('an added tone keeps the root: the fuller name is on the same one', () => {
    expect(fixes('chord G 2-2-3-2\n', 'chord.added-tone')).toEqual(['* Name it G(add9) wherever it is used']);
  });
});

describe('on an edition the lesson’s own name stays', () => {
  const bari = (line: string): string =>
    `also baritone ukulele, same key, called bari\nchord G 0-2-3-2\nprogression v\n  | G |\nedition bari\n  chord ${line}\n`;

  test('the chord gets another name there', () => {
    // 2-2-2-0 on D3 G3 B3 E4 sounds E A C# E, an A.
    expect(fixes(bari('G 2-2-2-0'), 'chord.name')).toEqual(['* Call it A on this instrument']);
    expect(fixedBy(bari('G 2-2-2-0'), 'chord.name')).toEqual([bari('G as A 2-2-2-0')]);
  });

  test('or a better one, if it has one', () => {
    expect(fixedBy(bari('G as C 2-2-2-0'), 'chord.name')).toEqual([bari('G as A 2-2-2-0')]);
    expect(problemCodes(bari('G as A 2-2-2-0'))).toEqual([]);
  });
});
