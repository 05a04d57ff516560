import { describe, expect, test } from 'vitest';
import { fixed, markOf, read } from './reading.ts';

const note = (parts: object): object => ({
  kind: 'notes',
  notes: [{ techniques: [], accent: false, restStroke: false, ...parts }],
});
const stroke = (parts: object): object => ({
  kind: 'strum',
  direction: 'down',
  slow: false,
  damped: false,
  light: false,
  accent: false,
  ...parts,
});

describe('marks of a pick row', () => {
  test.each([
    ['4', note({ string: 4 })],
    ['p', note({ finger: 'p' })],
    ['4p', note({ string: 4, finger: 'p' })],
    ['p4', note({ string: 4, finger: 'p' })],
    ['Rp', note({ bass: 'root', finger: 'p' })],
    ['pA', note({ bass: 'alternate', finger: 'p' })],
    ['R', note({ bass: 'root' })],
    ['1:5', note({ string: 1, fret: 5 })],
    ['1m:12', note({ string: 1, finger: 'm', fret: 12 })],
    ['4p!', note({ string: 4, finger: 'p', accent: true })],
    ['1m^', note({ string: 1, finger: 'm', restStroke: true })],
    ['1m^!', note({ string: 1, finger: 'm', restStroke: true, accent: true })],
    ['p5', note({ finger: 'p', string: 5 })],
    ['h7', { kind: 'technique', technique: { kind: 'hammer-on', fret: 7 } }],
    ['.', { kind: 'hold' }],
    ['-', { kind: 'hold' }],
    ['–', { kind: 'hold' }],
    ['=', { kind: 'keep' }],
    ['stop', { kind: 'stop', strings: [] }],
    ['stop3', { kind: 'stop', strings: [3] }],
    ['stop43', { kind: 'stop', strings: [4, 3] }],
  ])('%s', (word, mark) => expect(markOf('pick', word)).toEqual(mark));

  test('strings together', () => {
    expect(markOf('pick', '4p+1m:5')).toMatchObject({
      notes: [
        { string: 4, finger: 'p' },
        { string: 1, finger: 'm', fret: 5 },
      ],
    });
  });
});

describe('marks of a tune row', () => {
  test.each([
    ['1:5h7', { kind: 'hammer-on', fret: 7 }],
    ['1:7p5', { kind: 'pull-off', fret: 5 }],
    ['1:5s9', { kind: 'slide', fret: 9 }],
    ['1:5t7', { kind: 'trill', fret: 7 }],
    ['1:5b', { kind: 'bend' }],
    ['1:5v', { kind: 'vibrato' }],
    ['1:12*', { kind: 'harmonic' }],
  ])('%s', (word, technique) =>
    expect(markOf('tune', word)).toMatchObject({ kind: 'notes', notes: [{ string: 1, techniques: [technique] }] }),
  );

  test.each([
    ['h7', { kind: 'hammer-on', fret: 7 }],
    ['p5', { kind: 'pull-off', fret: 5 }],
    ['s9', { kind: 'slide', fret: 9 }],
    ['v', { kind: 'vibrato' }],
  ])('%s in a column of its own', (word, technique) =>
    expect(markOf('tune', word)).toEqual({ kind: 'technique', technique }),
  );

  test('several on one note, in order', () => {
    expect(markOf('tune', '1:5h7p5!')).toMatchObject({
      notes: [{ techniques: [{ kind: 'hammer-on' }, { kind: 'pull-off' }], accent: true }],
    });
  });
});

describe('strokes, three silences among them (C-8)', () => {
  test.each([
    ['D', stroke({})],
    ['d', stroke({})],
    ['U', stroke({ direction: 'up' })],
    ['D~', stroke({ slow: true })],
    ['D43', stroke({ strings: [4, 3] })],
    ['U123', stroke({ direction: 'up', strings: [1, 3] })],
    ['Dx', stroke({ damped: true })],
    ['(U)', stroke({ direction: 'up', light: true })],
    ['D!', stroke({ accent: true })],
    ['chunk', { kind: 'chunk', accent: false }],
    ['chunk!', { kind: 'chunk', accent: true }],
    ['roll', { kind: 'roll', accent: false }],
    ['s', { kind: 'shape-slide', accent: false }],
    ['stop', { kind: 'stop', strings: [] }],
  ])('%s', (word, mark) => expect(markOf('strum', word)).toEqual(mark));

  test('two downs in a row stay two (C-10)', () => {
    const { says, problems } = read('pattern r\n  count 1 la li\n  strum D D U');
    expect(says).toMatchObject({
      lines: [
        {
          rows: [
            {
              cells: [{ mark: { direction: 'down' } }, { mark: { direction: 'down' } }, { mark: { direction: 'up' } }],
            },
          ],
        },
      ],
    });
    expect(problems).toEqual([]);
  });
});

describe('the other rows', () => {
  test.each([
    ['hit', 'thumb4', { kind: 'hit', place: 'thumb', string: 4, accent: false }],
    ['hit', 'thumb', { kind: 'hit', place: 'thumb', accent: false }],
    ['hit', 'palm!', { kind: 'hit', place: 'palm', accent: true }],
    ['hit', 'nails', { kind: 'hit', place: 'nails', accent: false }],
    ['hit', 'body', { kind: 'hit', place: 'body', accent: false }],
    ['fingers', '3', { kind: 'finger', finger: 3 }],
    ['fingers', 'T', { kind: 'finger', finger: 'T' }],
    ['words', 'Lan-', { kind: 'syllable', text: 'Lan-' }],
    ['words', 'stop', { kind: 'syllable', text: 'stop' }],
    ['say', 'down', { kind: 'syllable', text: 'down' }],
  ] as const)('%s %s', (kind, word, mark) => expect(markOf(kind, word)).toEqual(mark));

  test('a chord on the grid', () =>
    expect(markOf('chord', 'C.full')).toMatchObject({ kind: 'chord', chord: { name: 'C', label: 'full' } }));
});

describe('counts', () => {
  /** The columns of a count row as said, ranges in brackets. */
  function columns(count: string): readonly string[] {
    const { statement } = read(`pattern r\n  count ${count}`).entry;
    const row = statement.kind === 'pattern' ? statement.lines[0]?.count : undefined;
    return (row?.columns ?? []).map(({ word, counts }) => (counts === undefined ? word.text : `[${counts.join('-')}]`));
  }

  test.each([
    ['1 & 2 &', ['[1-1]', '&', '[2-2]', '&']],
    ['1-2 la li', ['[1-2]', 'la', 'li']],
    ['4 | 1 2 3 4', ['[4-4]', '[1-1]', '[2-2]', '[3-3]', '[4-4]']],
  ])('%s', (count, expected) => expect(columns(count)).toEqual(expected));

  test('signs stand before the column that follows them', () => {
    const { says } = read('pattern r\n  count 4 |: 1 2 | 1st 1 :| x3 2nd 1 ||');
    expect(says).toMatchObject({
      lines: [
        {
          count: {
            signs: [
              { sign: '|:', column: 1 },
              { sign: '|', column: 3, ending: { numbers: [1] } },
              { sign: ':|', column: 4, times: 3, ending: { numbers: [2] } },
              { sign: '||', column: 5 },
            ],
          },
        },
      ],
    });
  });

  test.each([
    ['pattern r\n  count & 1', 'error count.start "&"'],
    ['pattern r\n  count 3-1', 'error count.order "3-1"'],
  ])('%j', (snippet, problem) => expect(read(snippet).problems).toEqual([problem]));
});

describe('lines of music and voices', () => {
  /** Lines of a grid, each as its rows: `count pick pick2 tune(Em)`. */
  function linesOf(snippet: string): readonly string[] {
    const { statement } = read(snippet).entry;
    const lines = statement.kind === 'pattern' || statement.kind === 'melody' ? statement.lines : [];
    return lines.map(({ count, rows }) =>
      [
        count && 'count',
        ...rows.map(({ kind, voice, chord }) => `${kind}${voice > 1 ? voice : ''}${chord ? `(${chord.text})` : ''}`),
      ]
        .filter(Boolean)
        .join(' '),
    );
  }

  test.each([
    ['one line', 'pattern r\n  count 1 2\n  pick 4 3\n  hit . palm', ['count pick hit']],
    [
      'a count begins a line',
      'pattern r\n  count 1 2\n  strum D U\n  count 1 2\n  strum D D',
      ['count strum', 'count strum'],
    ],
    [
      'a label that comes again does too',
      'pattern r\n  count 1 2\n  strum D U\n  strum D D',
      ['count strum', 'count strum'],
    ],
    ['without a count', 'pattern r\n  strum D U\n  strum D D', ['strum', 'strum']],
    [
      'fingers under two rows',
      'melody m\n  tune 1:1 1:2\n  fingers 1 2\n  pick 4 3\n  fingers 0 0',
      ['tune fingers pick fingers'],
    ],
    ['rows over chords', 'melody m\n  Em 1:2 .\n  C6 1:3 .\n  NC 1:0 .', ['tune(Em) tune(C6) tune(NC)']],
    ['a pick row for one chord', 'pattern r\n  pick 4p 3i\n  pick C 3p 2i\n  pick Am 4p 3i', ['pick pick(C) pick(Am)']],
    ['the other bass is no A chord', 'pattern r\n  pick Ap 3i', ['pick']],
    ['Am with a mark for every count is a mark', 'pattern r\n  count 1 2\n  pick Am 3i', ['count pick']],
    ['Am and a mark for every count is the chord', 'pattern r\n  count 1 2\n  pick Am 4p 3i', ['count pick(Am)']],
    ['a chord that begins like the other bass', 'pattern r\n  pick Amaj7 4p 3i', ['pick(Amaj7)']],
    ['voices', 'pattern r\n  count 1 2\n  pick 1 2\n  pick 2  4 3', ['count pick pick2']],
    ['a first string number is no voice', 'pattern r\n  count 1 2\n  pick 2 4', ['count pick']],
  ])('%s', (_name, snippet, lines) => {
    expect(linesOf(snippet)).toEqual(lines);
    expect(read(snippet).problems).toEqual([]);
  });
});

describe('the pattern as a whole', () => {
  test.each([
    ['like', 'pattern r\n  like roll', { like: 'roll' }],
    ['meter', 'pattern r\n  meter 3/4', { meter: { meter: { counts: 3, unit: 4 } } }],
    ['ring all', 'pattern r\n  ring all', { ring: { ring: { kind: 'all' } } }],
    ['ring strings', 'pattern r\n  ring 1, 2', { ring: { ring: { kind: 'strings', strings: [1, 2] } } }],
    ['plant', 'pattern r\n  plant p4 i3', { plant: { strings: { p: 4, i: 3 } } }],
    ['a tune that is asked for', 'melody m\n  inside verse\n  arch', { inside: 'verse', contour: { contour: 'arch' } }],
    ['prose', 'pattern r\n  > slowly, @Em', { prose: [{ mentions: ['Em'] }] }],
  ])('%s', (_name, snippet, says) => expect(read(snippet)).toMatchObject({ says, problems: [] }));
});

describe('slips in a grid', () => {
  test.each([
    ['pattern', 'hint grid.no-name ""'],
    ['pattern two words', 'error name.surplus "words"'],
    ['pattern r\n  pick 9', 'error pick.mark "9"'],
    ['pattern r\n  pick 1/5', 'error pick.mark "1/5"'],
    ['pattern r\n  pick 123', 'error pick.mark "123"'],
    ['pattern r\n  pick 4+4', 'error pick.mark "4+4"'],
    ['pattern r\n  pick 4 D', 'error pick.mark "D"'],
    ['pattern r\n  strum Q', 'error strum.mark "Q"'],
    ['pattern r\n  hit fist', 'error hit.mark "fist"'],
    ['pattern r\n  fingers 1', 'error fingers.no-row "fingers 1"'],
    ['pattern r\n  strum D\n  fingers 7', 'error fingers.mark "7"'],
    ['pattern r\n  chord zz', 'error chord.mark "zz"'],
    ['pattern r\n  ring many', 'error ring.unreadable "ring many"'],
    ['pattern r\n  plant q1', 'error plant.unreadable "q1"'],
    ['pattern r\n  tune 1:5', 'error keyword.place "tune"'],
    ['pattern r\n  strumm D', 'error keyword.unknown "strumm"'],
    ['pattern r\n  like', 'hint like.no-name ""'],
    ['melody m\n  inside', 'hint inside.no-name ""'],
    ['pattern r\n  tempo 60', 'error keyword.place "tempo"'],
  ])('%j', (snippet, problem) => expect(read(snippet).problems).toContain(problem));

  test('a place written as a fraction is mended', () =>
    expect(fixed('pattern r\n  pick 1/5')).toBe('pattern r\n  pick 1:5'));
  test('a slip in one mark leaves the others', () => {
    expect(read('pattern r\n  strum D Q U').says).toMatchObject({
      lines: [
        { rows: [{ cells: [{ mark: { kind: 'strum' } }, { mark: { kind: 'faulty' } }, { mark: { kind: 'strum' } }] }] },
      ],
    });
  });

  test('the strum without its gaps is spread on the eighths (C-6)', () => {
    // Eight half beats: strokes in slots 1, 3, 4, 6, 7 and 8. Source: player case C-6.
    expect(fixed('pattern r\n  strum D DU UDU')).toBe('pattern r\n  strum D . D U . U D U');
    expect(read('pattern r\n  strum D DU UDU').problems).toEqual(['error strum.run-together "D DU UDU"']);
  });
});
