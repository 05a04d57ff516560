import { describe, expect, test } from 'vitest';
import { kindsOf, read } from './reading.ts';

describe('exercises', () => {
  test.each([
    ['title', 'exercise Roll the changes', { title: 'Roll the changes' }],
    ['play', 'exercise e\n  play verse', { play: { members: [{ names: ['verse'], times: 1 }] } }],
    [
      'lists',
      'exercise e\n  with roll x2, climb knock',
      { with: [{ members: [{ names: ['roll'], times: 2 }, { names: ['climb'] }, { names: ['knock'] }] }] },
    ],
    [
      'both at once',
      'exercise e\n  with roll + climb x2',
      { with: [{ members: [{ names: ['roll', 'climb'], times: 2 }] }] },
    ],
    [
      'both at once without blanks',
      'exercise e\n  with roll+climb',
      { with: [{ members: [{ names: ['roll', 'climb'] }] }] },
    ],
    [
      'an augmented chord keeps its plus',
      'exercise e\n  over E+, C',
      { over: { members: [{ names: ['E+'] }, { names: ['C'] }] } },
    ],
    ['second time through', 'exercise e\n  with roll\n  with knock', { with: [{}, {}] }],
    [
      'over and each',
      'exercise e\n  over D(add9), C6\n  each roll',
      { over: { members: [{ names: ['D(add9)'] }, { names: ['C6'] }] }, each: { members: [{}] } },
    ],
    [
      'at bars',
      'exercise e\n  at bar 4 8 roll-end',
      { at: [{ bars: [4, 8], endings: [], members: [{ names: ['roll-end'] }] }] },
    ],
    ['at an ending', 'exercise e\n  at 2nd roll-end', { at: [{ bars: [], endings: [2] }] }],
    ['restart', 'exercise e\n  restart bar', { restart: { at: 'bar' } }],
    ['tempo', 'exercise e\n  tempo 60 to 80', { tempo: { tempo: { from: 60, to: 80 } } }],
    ['repeat', 'exercise e\n  repeat 2', { repeat: { times: 2 } }],
    ['minutes', 'exercise e\n  minutes 2.5', { minutes: { minutes: 2.5 } }],
    ['aim', 'exercise e\n  aim Even thumbs, always', { aim: 'Even thumbs, always' }],
    ['meter', 'exercise e\n  meter 3/4', { meter: { meter: { counts: 3, unit: 4 } } }],
    ['ring', 'exercise e\n  ring none', { ring: { ring: { kind: 'none' } } }],
    ['video', 'exercise e\n  video 1:03:25', { video: '1:03:25' }],
    ['prose', 'exercise e\n  > Slowly.', { prose: [{ lines: [' Slowly.'] }] }],
  ])('%s', (_name, snippet, says) =>
    expect(read(snippet)).toMatchObject({ says: { kind: 'exercise', ...says }, problems: [] }),
  );

  test.each([
    ['exercise', 'hint exercise.no-title ""'],
    ['exercise e\n  play', 'hint list.empty ""'],
    ['exercise e\n  with roll +', 'hint list.plus "roll +"'],
    ['exercise e\n  at bar 4', 'hint at.empty ""'],
    ['exercise e\n  tempo', 'hint tempo.empty ""'],
    ['exercise e\n  minutes', 'hint minutes.empty ""'],
    ['exercise e\n  restart', 'hint restart.empty ""'],
    ['exercise e\n  video', 'hint video.empty ""'],
    ['exercise e\n  at roll-end', 'error at.unreadable "at roll-end"'],
    ['exercise e\n  with | roll', 'error list.bar-sign "|"'],
    ['exercise e\n  with + roll', 'error list.plus "+"'],
    ['exercise e\n  restart often', 'error restart.unreadable "often"'],
    ['exercise e\n  repeat twice', 'error repeat.unreadable "twice"'],
    ['exercise e\n  minutes none', 'error minutes.unreadable "none"'],
    ['exercise e\n  video later', 'error video.unreadable "later"'],
    ['exercise e\n  play a\n  play b', 'warning exercise.twice "play b"'],
    ['exercise e\n  Play a', 'hint keyword.case "Play"'],
    ['exercise e\n  wiht a', 'error keyword.unknown "wiht"'],
  ])('%j', (snippet, problem) => expect(read(snippet).problems).toEqual([problem]));
});

describe('families', () => {
  test.each([
    ['from', 'family f\n  from verse', { from: 'verse' }],
    ['ring', 'family f\n  ring 1 2', { ring: { ring: { strings: [1, 2] } } }],
    ['within', 'family f\n  within 0 to 10', { within: { low: 0, high: 10 } }],
    ['within as a range', 'family f\n  within 0-10', { within: { low: 0, high: 10 } }],
    ['allow', 'family f\n  allow add9, 6 6/9', { allow: ['add9', '6', '6/9'] }],
    ['keep', 'family f\n  keep D 7-6-0-0', { keep: [{ chord: { name: 'D' }, shape: [7, 6, 0, 0] }] }],
  ])('%s', (_name, snippet, says) =>
    expect(read(snippet)).toMatchObject({ says: { kind: 'family', name: 'f', ...says }, problems: [] }),
  );

  test.each([
    ['family f\n  within', 'hint within.empty ""'],
    ['family f\n  within 9 to 2', 'error within.unreadable "within 9 to 2"'],
    ['family f\n  keep', 'hint keep.no-chord ""'],
    ['family f\n  from', 'hint from.no-name ""'],
  ])('%j', (snippet, problem) => expect(read(snippet).problems).toEqual([problem]));
});

describe('editions', () => {
  test('hold chords, patterns, a capo and prose', () => {
    const { says, problems } = read(
      'edition bari\n  chord G as D 0-2-3-2 fingers 0-1-3-2\n  capo 2\n  pattern roll\n    count 1 2\n    pick 4 3\n  melody climb\n    tune 1:5\n  > Softly.',
    );
    expect(says).toMatchObject({
      kind: 'edition',
      name: 'bari',
      chords: [{ chord: { name: 'G' }, as: { name: 'D' }, shape: [0, 2, 3, 2] }],
      capo: { fret: 2 },
      grids: [
        { kind: 'pattern', name: 'roll', lines: [{ rows: [{ kind: 'pick' }] }] },
        { kind: 'melody', name: 'climb' },
      ],
      prose: [{ lines: [' Softly.'] }],
    });
    expect(problems).toEqual([]);
  });

  test.each([
    ['edition', 'hint edition.no-name ""'],
    ['edition b\n  capo', 'hint capo.empty ""'],
    ['edition b\n  capo two', 'error capo.unreadable "capo two"'],
    ['edition b\n  chord G 0-2-3-2\n    strum D', 'error line.too-deep "strum D"'],
  ])('%j', (snippet, problem) => expect(read(snippet).problems).toEqual([problem]));
});

describe('prose', () => {
  /** The mentions of a line of prose, as far as each could reach. */
  function mentions(prose: string): readonly string[] {
    const { statement } = read(prose).entry;
    return statement.kind === 'prose'
      ? statement.paragraphs.flatMap((paragraph) => paragraph.mentions.map(({ text }) => text))
      : [];
  }

  test.each([
    ['> Hold @Em.', ['Em.']],
    ['> @roll-end, then @2-1-0-0!', ['roll-end,', '2-1-0-0!']],
    ['> @D(add9) and @B♭', ['D(add9)', 'B♭']],
    ['> write to ada@fenn.example', []],
    ['> (@Em)', ['Em)']],
    ['> @', []],
  ])('%s', (line, expected) => expect(mentions(line)).toEqual(expected));

  test('lines side by side are a paragraph; an empty line or a bare mark parts them', () => {
    const { statement } = read('> a\n> b\n\n> c').entry;
    expect(
      statement.kind === 'prose' && statement.paragraphs.map(({ lines }) => lines.map(({ text }) => text)),
    ).toEqual([[' a', ' b'], [' c']]);
  });

  test('the printed text is as typed', () => {
    const { statement } = read('> “Don’t” – C＃').entry;
    expect(statement.kind === 'prose' && statement.paragraphs[0]?.lines[0]?.text).toBe(' “Don’t” – C＃');
  });
});

describe('player cases', () => {
  test('C# in a remark is a remark, and Enter after it begins a line (G-4)', () => {
    expect(read('// C#')).toMatchObject({ says: { kind: 'nothing' }, problems: [] });
    expect(read('pattern r\n  // C#\n  strum D . D U').problems).toEqual([]);
  });

  test('a byte-order mark is read as if it were not there (G-5)', () => {
    expect(kindsOf('\ufefflesson L\nkey C')).toEqual(['lesson', 'key']);
    expect(read('\ufefflesson L')).toMatchObject({ says: read('lesson L').says, problems: [] });
    expect(kindsOf('\ufeff> hello')).toEqual(['prose']);
    expect(kindsOf('\ufeff// note\nkey C')).toEqual(['nothing', 'key']);
  });

  test('an indented line at the very top belongs to nothing, and says so', () => {
    expect(read('  strum D').problems).toEqual(['error line.orphan "strum D"']);
  });
});
