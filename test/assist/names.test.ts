import { describe, expect, test } from 'vitest';
import { definition, fixed, renamed, renameWord, uses } from './asking.ts';

const LESSON = `chord Em 0-4-3-2
chord Em.high 9-7-7-7
progression verse
  | Em | Em.high |
pattern roll
  pick 4 3 2 1
pattern end
  like roll
  pick = = = stop
melody climb
  tune 1:0 . 1:3 .
family drone
  from verse
  keep Em 0-4-3-2
exercise One
  play verse
  with roll + climb
  at bar 2 end
> Play @roll over @Em, then @Em.high.
show Em roll verse
`;

/** The lesson with the cursor in front of a word where it stands for the so-manieth time. */
function at(word: string, time = 1): string {
  let offset = -1;
  for (let found = 0; found < time; found++) offset = LESSON.indexOf(word, offset + 1);
  return `${LESSON.slice(0, offset)}$0${LESSON.slice(offset)}`;
}

describe('definition', () => {
  test.each([
    ['a chord in a bar', at('| Em').replace('$0| E', '| $0E'), 'chord Em 0-4-3-2'],
    ['a labelled chord', at('Em.high', 2), 'chord Em.high 9-7-7-7'],
    ['a mention', at('roll over'), 'pattern roll'],
    ['a labelled mention', at('Em.high', 3), 'chord Em.high 9-7-7-7'],
    ['play', at('verse', 3), 'progression verse'],
    ['with', at('roll + climb'), 'pattern roll'],
    ['with, the second of two', at('climb', 2), 'melody climb'],
    ['like', at('roll', 2), 'pattern roll'],
    ['at', at('end', 2), 'pattern end'],
    ['from', at('verse', 2), 'progression verse'],
    ['keep', at('Em 0-4-3-2', 2), 'chord Em 0-4-3-2'],
    ['show', at('verse', 4), 'progression verse'],
    ['the definition itself', at('roll'), 'pattern roll'],
    ['at the end of the word', `${LESSON}> @roll$0, and`, 'pattern roll'],
  ])('%s', (_name, marked, line) => expect(definition(marked)).toBe(line));

  test('a plain name with labelled shapes only means the first of them', () => {
    expect(definition('chord C.low 0-0-0-3\nchord C.full 5-4-3-3\nprogression v\n  | $0C |')).toBe(
      'chord C.low 0-0-0-3',
    );
  });

  test.each(['progression v\n  | $0C |', 'exercise e\n  with $0nothing', '> $0word', '$0'])('nowhere: %j', (marked) =>
    expect(definition(marked)).toBeUndefined(),
  );
});

describe('uses', () => {
  test.each([
    [
      'a pattern',
      at('roll'),
      ['pattern roll', 'like roll', 'with roll + climb', '> Play @roll over @Em, then @Em.high.', 'show Em roll verse'],
    ],
    ['a progression', at('verse'), ['progression verse', 'from verse', 'play verse', 'show Em roll verse']],
    [
      'a labelled chord',
      at('Em.high', 2),
      ['chord Em.high 9-7-7-7', '| Em | Em.high |', '> Play @roll over @Em, then @Em.high.'],
    ],
    ['a family', at('drone'), ['family drone']],
  ])('%s', (_name, marked, lines) => expect(uses(marked)).toEqual(lines));

  test('a pattern and a melody of one name stay apart', () => {
    const lesson = 'pattern roll\n  pick 4 3 2 1\nmelody ro$0ll\n  tune 1:0 . . .\nexercise e\n  with roll\n';
    expect(uses(lesson)).toEqual(['melody roll']);
  });

  test('the same from a use as from the definition', () => {
    expect(uses(at('roll', 3))).toEqual(uses(at('roll')));
    expect(uses(at('Em', 1))).toHaveLength(5);
  });
});

describe('renaming', () => {
  test('a pattern, everywhere', () => {
    expect(renamed(at('roll'), 'wheel')).toBe(LESSON.replaceAll('roll', 'wheel'));
    expect(renamed(at('roll', 3), 'wheel')).toBe(LESSON.replaceAll('roll', 'wheel'));
  });

  test('a labelled chord keeps its label, and the plain one its name', () => {
    expect(renamed(at('Em.high', 2), 'G6')).toBe(LESSON.replaceAll('Em.high', 'G6.high'));
    expect(renameWord(at('Em.high', 2))).toBe('Em');
  });

  test('a plain chord leaves the labelled one', () => {
    expect(renamed(at('Em'), 'G6')).toBe(LESSON.replaceAll(/Em(?!\.high)/g, 'G6'));
  });

  test.each([
    ['two words', at('roll'), 'my roll', 'A name is one word of letters, digits and -; my roll is not.'],
    ['a chord’s name', at('roll'), 'Am', 'Am is a chord’s name; take another one, or the two would be mixed up.'],
    ['a name in use', at('roll'), 'climb', 'climb is in use already.'],
    ['a name in use by another kind', at('roll'), 'verse', 'verse is in use already.'],
    ['an empty name', at('roll'), '', 'A name is one word of letters, digits and -;  is not.'],
    ['no chord', at('Em'), 'wheel', expect.stringMatching(/^"wheel" is not a chord name/)],
    ['a small letter', at('Em'), 'am', 'A chord name begins with a capital letter: Am.'],
    ['nothing here', `$0${LESSON}`, 'x', 'There is no name to change here.'],
  ])('%s is refused with a sentence', (_name, marked, name, sentence) =>
    expect(renamed(marked, name)).toEqual(sentence),
  );

  test('its own name is no name in use', () => expect(renamed(at('roll'), 'roll')).toBe(LESSON));

  test('the fix of a wrong chord name renames every use', () => {
    expect(fixed('chord F6 0-5-5-0\nprogression v\n  | F6 | C |\n> Hold @F6.\n', 'chord.name')).toBe(
      'chord F(add9) 0-5-5-0\nprogression v\n  | F(add9) | C |\n> Hold @F(add9).\n',
    );
  });

  test('and keeps its label', () => {
    expect(fixed('chord F6.low 0-5-5-0\nprogression v\n  | F6.low |\n', 'chord.name')).toBe(
      'chord F(add9).low 0-5-5-0\nprogression v\n  | F(add9).low |\n',
    );
  });

  test('what an edition replaces is renamed with it', () => {
    const lesson =
      'also guitar, called six\npattern ro$0ll\n  pick 4 3 2 1\nedition six\n  pattern roll\n    pick 1 2 3 4\n';
    expect(renamed(lesson, 'wheel')).toBe(lesson.replace('$0', '').replaceAll('roll', 'wheel'));
  });
});
