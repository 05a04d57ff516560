import { describe, expect, test } from 'vitest';
import { askingsAt } from '../../shared/assist/ask-questions.ts';
import { openDocument } from '../../shared/lesson/document.ts';
import { foundIn, written } from './asking-answers.ts';

const lesson = (bars: string, instrument = 'tenor ukulele, high G') =>
  `for ${instrument}\n\nprogression verse\n  ${bars}\n// a remark\n\npart Two\n`;

function askedIn(text: string): readonly string[] {
  return askingsAt(openDocument(text), text.indexOf('verse')).map((asking) => written(asking, text));
}

describe('what can be asked about a progression', () => {
  test('a family and a tune, written below it', () => {
    const text = lesson('| D | A | Bm | G |');
    expect(askedIn(text)).toEqual([
      text.replace(
        '\n// a remark',
        '\n\nfamily  walk\n  from    verse\n  ring    1\n  within  0 to 12\n  allow   7 add9 6\n// a remark',
      ),
      text.replace('\n// a remark', '\n\nmelody  verse-tune\n  inside  verse\n  arch\n// a remark'),
    ]);
  });

  // The tones of the chords by hand: A is in D, A and Dm; it is the sixth of C and the major seventh of Bb.
  test.each([
    ['| D | A | Bm | G |', 'ring    1', 'allow   7 add9 6'],
    ['| Dm | C | Bb | A |', 'ring    1', 'allow   6 maj7 add9'],
    // E is in C and Am alone, and G in C, Em and G: both belong to half of the chords.
    ['| C | Am | Em | G |', 'ring    2 4', 'allow   6 7 add9'],
  ])('%s: the strings that belong to most chords', (bars, ring, allow) => {
    const [family = ''] = askedIn(lesson(bars));
    expect(family).toContain(ring);
    expect(family).toContain(allow);
    expect(foundIn(family).answer).toMatchObject({ kind: 'family', found: { kind: 'families' } });
  });

  test('no string where none belongs', () => {
    const [family = ''] = askedIn(lesson('| F# | Ab | B |'));
    expect(family).not.toContain('ring');
    expect(foundIn(family).writings.length).toBeGreaterThan(0);
  });

  test('names that are taken are not taken again', () => {
    const text = `family walk\n  from verse\n\nmelody verse-tune\n  tune 1:0 . . .\n\n${lesson('| C | F |')}`;
    const asked = askingsAt(openDocument(text), text.lastIndexOf('progression verse')).map((one) => written(one, text));
    expect(asked[0]).toContain('family  walk-2');
    expect(asked[1]).toContain('melody  verse-tune-2');
  });

  test.each([
    ['a progression without a name', 'progression\n  | C | F |\n'],
    ['one chord', 'progression verse\n  | C | C? |\n'],
    ['another statement', 'pattern verse\n  strum D D D D\n'],
  ])('nothing of a family for %s', (_, text) => {
    const kinds = askingsAt(openDocument(text), 3).map(({ kind }) => kind);
    expect(kinds).not.toContain('family');
  });

  test('a tune also where some bar has no chord, or another meter; none where no chord is played, or a bar is too long', () => {
    const kindsOver = (bars: string) => {
      const text = lesson(bars);
      return askingsAt(openDocument(text), text.indexOf('verse')).map(({ kind }) => kind);
    };
    for (const bars of ['| C | NC |', '| C | 3/4 F |']) expect(kindsOver(bars)).toContain('tune');
    for (const bars of ['| NC | NC |', '| C / / / / | F |']) expect(kindsOver(bars)).not.toContain('tune');
  });

  test('nothing behind the statement, where the next one is written', () => {
    const text = lesson('| C | F |');
    expect(askingsAt(openDocument(text), text.indexOf('a remark'))).toEqual([]);
  });
});
