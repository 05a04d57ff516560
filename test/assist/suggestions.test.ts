import { describe, expect, test } from 'vitest';
import { KEYWORDS } from '../../shared/lesson/syntax/keywords.ts';
import { cardOf, chosen, labels, shapesNear, suggestions } from './asking.ts';

const LESSON = `key G
chord Em 0-4-3-2
chord Q.x 0-0-0-0
progression verse
  | Em | G |
pattern roll
  pick 4 3 2 1
melody climb
  tune 1:0 . 1:3 .
`;

/** Labels of one kind, in the order they are offered. */
function ofKind(marked: string, kind: string): readonly string[] {
  return suggestions(marked).flatMap((one) => (one.kind === kind ? [one.label] : []));
}

describe('keywords by block', () => {
  const words = (block: keyof typeof KEYWORDS): readonly string[] => KEYWORDS[block].map(({ word }) => word);
  test.each([
    ['at the left margin', '$0', 'lesson'],
    ['half typed', 'pro$0', 'lesson'],
    ['in front of what is typed', '$0pro', 'lesson'],
    ['on an empty line at the margin', `${LESSON}$0`, 'lesson'],
    ['under a progression', 'progression v\n  $0', 'progression'],
    ['under a pattern', 'pattern p\n  s$0', 'pattern'],
    ['under an exercise', 'exercise e\n  $0', 'exercise'],
    ['under an exercise, half typed', 'exercise e\n  pl$0\n  with roll', 'exercise'],
    ['under a family', 'family f\n  $0', 'family'],
    ['behind a byte-order mark', '\ufeff$0', 'lesson'],
  ] as const)('%s', (_name, marked, block) => {
    expect(labels(marked)).toEqual([...new Set(words(block))]);
    expect(new Set(suggestions(marked).map(({ kind }) => kind))).toEqual(new Set(['keyword']));
  });

  test('a melody has rows called by chords too', () => {
    const offered = labels(`${LESSON}melody m\n  $0`);
    expect(offered.slice(0, words('melody').length)).toEqual([...new Set(words('melody'))]);
    expect(offered).toContain('Em');
  });

  test('an edition offers its own words and those of a grid', () => {
    expect(labels('edition six\n  $0')).toEqual(
      expect.arrayContaining(['chord', 'pattern', 'melody', 'capo', 'strum', 'tune']),
    );
  });

  test('nothing may stand under a header line', () => expect(labels('key C\n  $0')).toEqual([]));

  test('a chosen keyword takes the place of what is typed', () => {
    expect(chosen('pro$0', 'progression')).toBe('progression  ');
    expect(chosen('exercise e\n  pl$0', 'play')).toBe('exercise e\n  play  ');
  });
});

describe('chords: those of the lesson, then the key’s, then any', () => {
  // Key of G: G Am Bm C D Em F#dim are its triads. Source: the harmonised major scale of any theory handbook.
  const TRIADS = ['G', 'Am', 'Bm', 'C', 'D', 'F#dim'];
  test.each([
    ['a chord line', `${LESSON}chord $0`],
    ['half typed', `${LESSON}chord A$0`],
    ['a progression', `${LESSON}progression w\n  | Em | $0`],
    ['a progression on its first line', `${LESSON}progression w | $0`],
    ['in the middle of a bar', `${LESSON}progression w\n  | Em $0 | G |`],
    ['a chord row', `${LESSON}pattern p\n  strum D D D D\n  chord . . $0`],
    ['over', `${LESSON}exercise e\n  over $0`],
    ['a mention', `${LESSON}> Hold @$0`],
    ['show', `${LESSON}show $0`],
    ['keep', `${LESSON}family f\n  keep $0`],
    ['a chord of an edition', `${LESSON}also guitar\nedition guitar\n  chord $0`],
  ])('%s', (_name, marked) => {
    const chords = ofKind(marked, 'chord');
    expect(chords.slice(0, 2)).toEqual(['Em', 'Q.x']);
    expect(chords.slice(2, 2 + TRIADS.length)).toEqual(TRIADS);
  });

  test('behind a letter every usual chord on it', () => {
    expect(labels('key G\nchord Bb$0')).toEqual(
      expect.arrayContaining(['Bb', 'Bbm', 'Bb7', 'Bbmaj7', 'Bb(add9)', 'Bbdim7']),
    );
  });

  test('a bar also takes % and NC', () => {
    expect(ofKind('progression v\n  | C | $0', 'mark')).toEqual(['%', 'NC']);
  });

  test('a name is offered once', () => {
    const offered = labels(`${LESSON}progression w\n  | E$0`);
    expect(offered.filter((label) => label === 'Em')).toHaveLength(1);
    expect(new Set(offered).size).toBe(offered.length);
  });

  test('the letters typed are replaced, the rest of the line is not', () => {
    expect(chosen(`${LESSON}progression w\n  | E$0 | G |`, 'Em')).toMatch(/\n {2}\| Em \| G \|$/);
    expect(chosen(`${LESSON}> Hold @E$0, then rest.`, 'Em')).toMatch(/> Hold @Em, then rest\.$/);
  });

  test('a chosen chord has its card', () => {
    expect(cardOf(LESSON, 'chord', 'Em')?.markdown).toContain('0-4-3-2');
    expect(cardOf(LESSON, 'shape', '2-0-1-0')?.picture?.svg).toMatch(/^<svg/);
    expect(cardOf(LESSON, 'keyword', 'key')).toBeUndefined();
    expect(cardOf(LESSON, 'shape', '2-0')).toBeUndefined();
  });
});

describe('shapes behind a name', () => {
  test('the usual one first', () => {
    // Source: the usual first-position chart of method books for C tuning, common practice.
    expect(labels('chord C $0')[0]).toBe('0-0-0-3');
    expect(labels('chord F $0')[0]).toBe('2-0-1-0');
    expect(suggestions('chord Am $0').every(({ kind }) => kind === 'shape')).toBe(true);
  });

  test('of the lesson’s instrument, and above its capo', () => {
    expect(labels('for baritone ukulele\nchord C $0')[0]).toBe('2-0-1-0');
    expect(labels('for tenor ukulele, capo 2\nchord C $0')[0]).toBe('0-0-0-3');
  });

  // 0-0-0-0 on G4 C4 E4 A4 is C6 as well as Am7 (A-1 of the player cases): what is typed is what is shown.
  test.each([
    ['Am7', 'C6'],
    ['C6', 'Am7'],
  ])('the card of a shape has the name that was typed: %s', (typed, other) => {
    const offer = suggestions(`chord ${typed} $0`).find(({ label }) => label === '0-0-0-0');
    expect(offer?.chord).toBe(typed);
    const card = cardOf(`chord ${typed} `, 'shape', '0-0-0-0', typed);
    expect(card?.markdown).toMatch(new RegExp(`^\\*\\*${typed}\\*\\*`));
    expect(card?.markdown).toContain(`Other names: ${other}`);
    expect(card?.picture?.alternative).toMatch(typed === 'C6' ? /^C 6: string 4 open/ : /^A minor 7: string 4 open/);
  });

  test('the detail says the fingers and how hard it is, for the lesson’s hand', () => {
    const detail = (lesson: string, shape: string): string | undefined =>
      suggestions(lesson).find(({ label }) => label === shape)?.detail;
    // Index and middle finger. Source: charts of method books, common practice.
    expect(detail('chord F $0', '2-0-1-0')).toBe('fingers 2-0-1-0, beginner');
    expect(detail('chord C6 $0', '0-0-0-0')).toBe('no finger');
    expect(detail('for guitar\nchord F $0', '1-3-3-2-1-1')).toMatch(/^fingers 1-3-4-2-1-1, \w+$/);
    expect(detail('for guitar\nhand small\nchord F $0', '1-3-3-2-1-1')).toBe('fingers 1-3-4-2-1-1, a stretch');
    expect(cardOf('', 'shape', '2-0-1-0')?.picture?.alternative).toContain('string 4 fret 2 middle finger');
  });

  test('near the shape before: that of the chord before it in a progression, else that of the line above', () => {
    // How near ones are ranked is the finder's to say, and tested there.
    const usual = labels('chord Am $0');
    const near = shapesNear('Am', '7-7-7-10');
    expect(near).not.toEqual(usual);
    expect(labels('chord C 7-7-7-10\nchord Am $0')).toEqual(near);
    const lesson = 'chord C 7-7-7-10\nchord F 2-0-1-0\nchord Am $0\nprogression v\n  | C | Am | F |\n';
    expect(labels(lesson)).toEqual(near);
    expect(labels(lesson.replace('C | Am', 'F | Am'))).toEqual(shapesNear('Am', '2-0-1-0'));
  });

  test('a further label is offered further shapes', () => {
    const [first, second] = labels('chord Em $0');
    expect(labels(`chord Em ${first}\nprogression v\n  | C | G |\nchord Em.high $0`)).not.toContain(first);
    expect(labels(`chord Em.high ${second}\nchord Em $0`)).not.toContain(second);
    // On its own line the shape stays on offer.
    expect(labels(`chord Em $0${first}`)).toContain(first);
  });

  test('on an edition those of its instrument', () => {
    const block = 'also baritone ukulele, same key, called bari\nchord C 0-0-0-3\nedition bari\n  chord ';
    expect(labels(`${block}C $0`)[0]).toBe('2-0-1-0');
    const offer = suggestions(`${block}C $0`).find(({ label }) => label === '2-0-1-0');
    expect(offer?.edition).toBe('bari');
    // The open strings of a baritone are D3 G3 B3 E4. Source: its usual tuning.
    expect(cardOf(block, 'shape', '2-0-1-0', 'C', 'bari')?.markdown).toContain('3 G3');
    expect(labels(`${block}C as A$0`)).toContain('Am');
    expect(labels(`${block}C as G $0`)[0]).toBe('0-0-0-3');
  });

  test('the half-typed shape is replaced', () => expect(chosen('chord C 0-0$0', '0-0-0-3')).toBe('chord C 0-0-0-3'));
  test('nothing for what is no chord', () => expect(labels('chord roll $0')).toEqual([]));
  test('behind the frets, fingers', () => expect(labels('chord C 0-0-0-3 $0')).toEqual(['fingers']));
  test('pinned in a family', () => expect(labels('family f\n  keep C $0')[0]).toBe('0-0-0-3'));
});

describe('names by kind', () => {
  test.each([
    ['play', 'exercise e\n  play $0', ['verse']],
    ['play, half typed', 'exercise e\n  play ve$0', ['verse']],
    ['with', 'exercise e\n  with $0', ['roll', 'climb']],
    ['with, behind a plus', 'exercise e\n  with roll + $0', ['roll', 'climb']],
    ['with, behind a comma', 'exercise e\n  with roll, $0', ['roll', 'climb']],
    ['each', 'exercise e\n  each r$0', ['roll', 'climb']],
    ['at bar', 'exercise e\n  at bar 4 $0', ['roll', 'climb']],
    ['like, but not itself', 'pattern p\n  like $0', ['roll', 'climb']],
    ['inside', 'melody m\n  inside $0', ['verse']],
    ['from', 'family f\n  from $0', ['verse']],
    ['restart', 'exercise e\n  restart $0', ['chord', 'bar']],
  ])('%s', (_name, marked, expected) => {
    expect([...labels(`${LESSON}${marked}`)].sort()).toEqual([...expected].sort());
  });

  test('over takes chords and progressions', () => {
    expect(labels(`${LESSON}exercise e\n  over $0`)).toEqual(expect.arrayContaining(['Em', 'verse', 'G']));
  });

  test('a broken line above does not matter', () => {
    expect(labels(`${LESSON}chord ???\nexercise e\n  with r$0`)).toEqual(['roll', 'climb']);
  });
});

describe('header values', () => {
  test('instruments and tunings, the whole value replaced', () => {
    expect(labels('for $0')).toEqual(
      expect.arrayContaining(['tenor ukulele, high G', 'tenor ukulele, low G', 'baritone ukulele', 'guitar']),
    );
    expect(chosen('for tenor uk$0', 'tenor ukulele, low G')).toBe('for tenor ukulele, low G');
    expect(chosen('for tenor ukulele, l$0', 'tenor ukulele, low G')).toBe('for tenor ukulele, low G');
  });
  test('further editions say what they keep', () => {
    expect(labels('also $0')).toEqual(
      expect.arrayContaining(['baritone ukulele, same shapes', 'baritone ukulele, same key']),
    );
  });
  test.each([
    ['key $0', 'E minor'],
    ['meter $0', '6/8'],
    ['feel $0', 'swing'],
    ['tempo $0', '60 to 92 by 4'],
    ['hand $0', 'small'],
    ['level $0', '2'],
  ])('%s', (marked, label) => expect(labels(marked)).toContain(label));
  test('two words of a key are one value', () => expect(chosen('key E mi$0', 'E minor')).toBe('key E minor'));
  test.each(['lesson $0', 'by $0', 'dated $0', 'part $0', 'corrected $0'])('nothing in free text: %s', (marked) =>
    expect(labels(marked)).toEqual([]),
  );
});

describe('places in the key in rows of tune', () => {
  test('tones of the chord first, nothing outside of the key but the chord’s own', () => {
    const offered = suggestions(`key C\nchord C 0-0-0-3\nmelody m\n  count 1 2 3 4\n  C $0`).filter(
      ({ kind }) => kind === 'place',
    );
    const inChord = offered.filter(({ detail }) => detail?.includes('in the chord'));
    expect(offered.slice(0, inChord.length)).toEqual(inChord);
    expect(inChord.length).toBeGreaterThan(3);
    // C major has no sharps or flats. Source: its key signature.
    expect(offered.filter(({ detail }) => /[#b♯♭]/.test(detail?.split(',')[0] ?? ''))).toEqual([]);
    expect(offered.map(({ label }) => label)).toContain('1:3');
  });

  test('a free tune', () => {
    expect(labels('key C\nmelody m\n  tune $0')).toEqual(expect.arrayContaining(['1:0', '3:0', '.', 'stop']));
    expect(labels('key C\nmelody m\n  tune $0')).not.toContain('1:1');
  });

  test('an accidental of the chord is offered though the key lacks it', () => {
    expect(labels('key A minor\nchord E7 1-2-0-2\nmelody m\n  E7 $0')).toContain('4:1');
  });

  test('no place beyond the neck', () => {
    const frets = labels('for tenor ukulele frets 12\nchord C 12-12-12-12\nmelody m\n  C $0').flatMap(
      (label) => /:(\d+)/.exec(label)?.[1] ?? [],
    );
    expect(Math.max(...frets.map(Number))).toBe(12);
  });
});

describe('where nothing pops up (G-4 must)', () => {
  test.each([
    ['a remark', '// C#$0'],
    ['a remark in a block', 'pattern p\n  // C#$0'],
    ['prose', '> C#$0'],
    ['prose in a block', 'exercise e\n  > C#$0'],
    ['an address', '> ada@fe$0nn.example'],
    ['behind a mention', '> Hold @Em now$0'],
    ['sung words', 'progression v\n  | C |\n  words la$0'],
  ])('%s', (_name, marked) => expect(labels(marked)).toEqual([]));

  test.each(['strum D DU$0', 'strum D$0', 'strum D . D U$0', 'pick 4$0', 'hit palm$0', 'pick 4p 3i$0'])(
    'Enter after a mark makes a new line: nothing offered would take its place in %s',
    (row) => {
      const typed = /\S*$/.exec(row.replace('$0', ''))?.[0] ?? '';
      const offered = suggestions(`pattern p\n  ${row}`).filter(({ label, filter }) =>
        (filter ?? label).startsWith(typed),
      );
      expect(offered).toEqual([]);
    },
  );

  test.each([
    ['strum D $0', 'U'],
    ['pick 4p $0', '3i'],
    ['hit . $0', 'thumb4'],
  ])('marks are offered where none has begun: %s', (row, mark) =>
    expect(labels(`pattern p\n  ${row}`)).toContain(mark),
  );
});
