import { describe, expect, test } from 'vitest';
import { openDocument } from '../../../shared/lesson/document.ts';
import { parseNote, printNote } from '../../../shared/theory/note.ts';
import { fixed, read } from './reading.ts';

describe('chord lines', () => {
  test.each([
    ['dashes', 'chord Em 0-4-3-2', [0, 4, 3, 2]],
    ['run together', 'chord Em 0432', [0, 4, 3, 2]],
    ['blanks', 'chord Cm7b5 12 12 11 0', [12, 12, 11, 0]],
    ['a muted string', 'chord C x-3-2-0-1-0', ['muted', 3, 2, 0, 1, 0]],
    ['muted and run together', 'chord C x32010', ['muted', 3, 2, 0, 1, 0]],
    ['typographic dashes', 'chord Em 0–4−3‐2', [0, 4, 3, 2]],
    ['full-width digits', 'chord Em ０-４-３-２', [0, 4, 3, 2]],
    ['half typed', 'chord Em 0-4', [0, 4]],
  ])('frets: %s', (_name, line, shape) =>
    expect(read(line)).toMatchObject({ says: { kind: 'chord', shape }, problems: [] }),
  );

  test.each([
    ['chord Em 0-4-3-2 fingers 0-3-2-1', [0, 3, 2, 1]],
    ['chord Em 0-4-3-2 fingers 0321', [0, 3, 2, 1]],
    ['chord Em 0 4 3 2 fingers 0 3 2 1', [0, 3, 2, 1]],
    ['chord D/F# 2-x-0-2-3-2 fingers T-x-0-1-3-2', ['T', 0, 0, 1, 3, 2]],
  ])('%s', (line, fingers) => expect(read(line)).toMatchObject({ says: { fingers }, problems: [] }));

  test.each([
    ['Em.high', { name: 'Em', label: 'high' }],
    ['D(add9)', { name: 'D(add9)' }],
    ['G6/9', { name: 'G6/9' }],
    ['C△7', { name: 'C△7' }],
    ['E-', { name: 'E-' }],
    ['E+', { name: 'E+' }],
  ])('the name %s', (name, chord) => {
    const { says, problems } = read(`chord ${name} 0-0-0-0`);
    expect(says).toMatchObject({ chord: { text: name, ...chord } });
    expect(problems).toEqual([]);
  });

  test('each fret knows where it stands', () => {
    const { statement, text } = read('chord Gm7 10-12-x-3').entry;
    const spans = statement.kind === 'chord' ? statement.fretSpans : [];
    expect(spans.map(({ start, end }) => text.slice(start, end))).toEqual(['10', '12', 'x', '3']);
  });

  test.each([
    ['chord Zed 0-0-0-0', 'error chord.without-root "Zed"'],
    ['chord NC 0-0-0-0', 'error chord.none "NC"'],
    ['chord Em 0-4-3-2 fingers 0-9-2-1', 'error fingers.not-a-finger "0-9-2-1"'],
  ])('%s', (line, problem) => expect(read(line).problems).toContain(problem));

  test('a line below a chord line does not belong there', () => {
    expect(read('chord C 0-0-0-3\n  strum D').problems).toEqual(['error line.too-deep "strum D"']);
  });
});

describe('two shapes of one name (F-3)', () => {
  test('have keys of their own and one printed name', () => {
    const document = openDocument('chord Am7.open 0-0-0-0\nchord Am7.barre 2-4-3-3\n');
    const chords = document.entries.flatMap(({ statement }) =>
      statement.kind === 'chord' && statement.chord ? [statement.chord] : [],
    );
    expect(chords.map(({ text }) => text)).toEqual(['Am7.open', 'Am7.barre']);
    expect(chords.map(({ name }) => name)).toEqual(['Am7', 'Am7']);
    expect(document.entries.flatMap(({ problems }) => problems)).toEqual([]);
  });
});

describe('accidentals (G-7)', () => {
  test.each([
    ['B♭', 'Bb'],
    ['C♯', 'C#'],
    ['Bb', 'Bb'],
    ['C#', 'C#'],
  ])('%s means %s', (written, meant) => {
    const { statement, problems } = read(`chord ${written} 0-0-0-0`).entry;
    const root = statement.kind === 'chord' ? statement.chord?.symbol?.root : undefined;
    const note = parseNote(meant);
    expect(root).toEqual(note.ok ? note.value : 'unreadable');
    expect(root && printNote(root)).toBe(meant);
    expect(problems).toEqual([]);
  });
});

test('a small letter in a progression is mended to the minor chord', () => {
  expect(fixed('progression v\n  | em |')).toBe('progression v\n  | Em |');
});
