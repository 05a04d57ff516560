import { readdirSync, readFileSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { editDocument, type LessonDocument, openDocument } from '../../../shared/lesson/document.ts';
import { readEntry } from '../../../shared/lesson/syntax/read-entry.ts';
import { joinedTokens, misplaced, problemsIn, statementsIn } from './reading.ts';

/** One seed for all: a failure today is the same failure tomorrow. */
const SEED = 20_261_125;

const folder = new URL('../../../client/samples/', import.meta.url);
const samples = readdirSync(folder)
  .filter((file) => file.endsWith('.lesson'))
  .map((file) => ({ file, text: readFileSync(new URL(file, folder), 'utf8') }));
const first = samples[0]?.text ?? '';

/** Pieces that lessons are made of, and pieces that make trouble. */
const PIECES = [
  ...[
    '\n',
    '\r',
    '\r\n',
    '\n\n',
    ' ',
    '  ',
    '\t',
    '\u00a0',
    '\0',
    '\ufeff',
    '\ud83d',
    '\ude00',
    '🎸',
    '♭',
    '－',
    '０',
    '’',
  ],
  ...[
    '>',
    '> ',
    '//',
    '@',
    '@Em',
    ',',
    '|',
    '|:',
    ':|',
    '||',
    ':|:',
    '(',
    ')',
    '%',
    '/',
    '.',
    '=',
    '+',
    '&',
    '-',
    '_',
    '"',
  ],
  ...[
    'chord ',
    'Em',
    'D(add9)',
    '0-4-3-2',
    'x',
    'fingers ',
    'progression v',
    'pattern r',
    'melody m',
    'exercise E',
    'family f',
    'edition b',
  ],
  ...[
    '\n  count 1 & 2',
    '\n  pick 4p',
    '\n  strum D',
    '\n  tune 1:5h7',
    '\n  like r',
    '\n  play v',
    '\n  at bar 4 r',
    '\n  ring 1 2',
    '1st',
    'x3',
    'lesson L',
    'for tenor ukulele',
    'key C',
    'tempo 60',
  ],
];
const piece = fc.constantFrom(...PIECES);
const lessonLike = fc
  .array(
    fc.oneof({ weight: 4, arbitrary: piece }, { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 4 }) }),
    { maxLength: 40 },
  )
  .map((pieces) => pieces.join(''));
/** Any string at all, half surrogates included. */
const anyText = fc.oneof(
  lessonLike,
  fc.string({ unit: 'binary', maxLength: 80 }),
  fc.array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 60 }).map((codes) => String.fromCharCode(...codes)),
);

function faultsOf(document: LessonDocument): readonly string[] {
  return document.entries.flatMap(misplaced);
}

describe('any text at all', () => {
  test('its tokens joined are the text, and every place is in range and nested', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const document = openDocument(text);
        expect(joinedTokens(document)).toBe(text);
        expect(faultsOf(document)).toEqual([]);
      }),
      { seed: SEED, numRuns: 1000 },
    );
  });

  test('entries cover the text without a gap', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const { entries, starts } = openDocument(text);
        expect(entries.map((entry) => entry.text).join('')).toBe(text);
        expect(starts).toEqual(
          entries.map((_, index) => entries.slice(0, index).reduce((sum, entry) => sum + entry.text.length, 0)),
        );
      }),
      { seed: SEED, numRuns: 500 },
    );
  });
});

describe('a line without end reads before anybody waits', () => {
  // The first of these once tried every blank anew: twice the blanks took four times as long.
  test.each([
    ['blanks in also', `also a${' '.repeat(100_000)}b`],
    ['blanks in tempo', `tempo 60${' '.repeat(100_000)}x`],
    ['open brackets', `chord C${'('.repeat(20_000)} 0-0-0-3`],
    ['dashes', `pattern r\n  pick ${'-'.repeat(100_000)}x`],
    ['mentions', `> ${'@a'.repeat(20_000)}`],
    ['techniques', `pattern r\n  pick 1:5${'h7'.repeat(20_000)}Z`],
  ])('%s', (_name, text) => expect(joinedTokens(openDocument(text))).toBe(text));
});

describe('a lesson while it is typed or mistyped', () => {
  // An entry is read by itself, so the beginnings of its text are all that a half-typed lesson adds to whole entries.
  // The first sample is taken letter by letter; the others, to keep the suite quick, at every seventh place.
  const strideFor = (text: string): number => (text === first ? 1 : 7);

  test.each(samples)('every beginning of every statement of $file reads', ({ text }) => {
    for (const entry of openDocument(text).entries) {
      for (let length = 0; length <= entry.text.length; length += strideFor(text)) {
        const faults = misplaced(readEntry(entry.text.slice(0, length)));
        if (faults.length > 0) expect([entry.text.slice(0, length), faults]).toEqual([entry.text.slice(0, length), []]);
      }
    }
  });

  const LETTERS = ['x', ' ', '|', '-', '1', '>', '(', '.', '@', ':', '/', 'A', '♭', '\t', ','];
  test.each(samples)('every statement of $file reads with any one letter changed, added or gone', ({ text }) => {
    let turn = 0;
    for (const entry of openDocument(text).entries) {
      for (let at = 0; at <= entry.text.length; at += strideFor(text)) {
        const letter = LETTERS[turn++ % LETTERS.length] ?? 'x';
        const [before, after] = [entry.text.slice(0, at), entry.text.slice(at)];
        const ways = [before + letter + after, before + after.slice(1), before + letter + after.slice(1)];
        // One way at each place, in turn: three at each would take three times as long and find no more.
        const edited = ways[Math.floor(turn / LETTERS.length) % 3] ?? before;
        const faults = misplaced(readEntry(edited));
        if (faults.length > 0) expect([edited, faults]).toEqual([edited, []]);
      }
    }
  });

  test('every hundredth beginning of a whole lesson reads as a document', () => {
    for (let length = 0; length <= first.length; length += 100) {
      const document = openDocument(first.slice(0, length));
      expect(joinedTokens(document)).toBe(first.slice(0, length));
      expect(faultsOf(document)).toEqual([]);
    }
  });
});

interface Change {
  readonly at: number;
  readonly gone: number;
  readonly text: string;
}
const change: fc.Arbitrary<Change> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  gone: fc.oneof({ weight: 3, arbitrary: fc.constantFrom(0, 1, 2) }, { weight: 1, arbitrary: fc.nat(120) }),
  text: fc.oneof(piece, fc.constant(''), lessonLike),
});

function apply(document: LessonDocument, { at, gone, text }: Change): LessonDocument {
  const start = Math.floor(at * document.text.length);
  return editDocument(document, { span: { start, end: Math.min(document.text.length, start + gone) }, text });
}

describe('editing', () => {
  const startText = fc.oneof(lessonLike, fc.constantFrom(...samples.map(({ text }) => text.slice(0, 700))));

  test('after any run of edits the document is what reading the whole text gives', () => {
    fc.assert(
      fc.property(startText, fc.array(change, { minLength: 1, maxLength: 8 }), (text, changes) => {
        let document = openDocument(text);
        for (const one of changes) {
          document = apply(document, one);
          if (!isDeepStrictEqual(document, openDocument(document.text)))
            expect(document).toEqual(openDocument(document.text));
        }
      }),
      { seed: SEED, numRuns: 200 },
    );
  });

  test.each([
    ['a line end in a chord line', 'key C\nchord C 0-0-0-3\nchord F 2-0-1-0\n', 'chord C', '\n'],
    ['a blank that makes a statement part of the one above', 'pattern r\nchord C 0-0-0-3\n', 'chord', ' '],
    ['prose between two paragraphs', '> a\nkey C\n> b\n', 'key', '>'],
    ['a remark over a statement', 'key C\nmeter 4/4\n', 'meter', '//'],
  ])('%s', (_name, text, before, inserted) => {
    const start = text.indexOf(before);
    const document = editDocument(openDocument(text), { span: { start, end: start }, text: inserted });
    expect(document).toEqual(openDocument(document.text));
  });

  test('joining lines, halving a line end and deleting across entries', () => {
    const text = '> a\r\n> b\r\nkey C\r\n\r\npattern r\r\n  strum D\r\nmeter 3/4';
    for (let start = 0; start <= text.length; start++) {
      for (let end = start; end <= text.length; end++) {
        const document = editDocument(openDocument(text), { span: { start, end }, text: '' });
        if (!isDeepStrictEqual(document, openDocument(document.text)))
          expect(document).toEqual(openDocument(document.text));
      }
    }
  });

  test('entries that an edit does not touch are the very same values', () => {
    const document = openDocument(first);
    const target = document.entries.findIndex(({ statement }) => statement.kind === 'pattern');
    const start = (document.starts[target] ?? 0) + (document.entries[target]?.text.length ?? 0) - 2;
    const edited = editDocument(document, { span: { start, end: start }, text: ' U' });
    const changed = edited.entries.flatMap((entry, index) => (entry === document.entries[index] ? [] : [index]));
    expect(changed).toEqual([target]);
  });

  test('a new line at the top keeps every entry below it', () => {
    const document = openDocument(first);
    const edited = editDocument(document, { span: { start: 0, end: 0 }, text: 'key C\n' });
    const known = new Set(document.entries);
    expect(edited.entries.filter((entry) => !known.has(entry)).length).toBeLessThanOrEqual(2);
  });
});

describe('line ends of another system', () => {
  test.each(samples)('$file says the same with CRLF and with LF (G-6)', ({ text }) => {
    const other = text.replace(/\n/g, '\r\n');
    expect(statementsIn(other)).toEqual(statementsIn(text));
    expect(openDocument(other).entries.map(problemsIn)).toEqual(openDocument(text).entries.map(problemsIn));
  });

  test('mixed line ends read too', () => {
    expect(statementsIn('key C\r\nmeter 3/4\rpattern r\n  strum D\r\n  hit .')).toEqual(
      statementsIn('key C\nmeter 3/4\npattern r\n  strum D\n  hit .'),
    );
  });

  test('a problem stands in the same line and column', () => {
    const place = (text: string): readonly [number, number] => {
      const document = openDocument(text);
      const index = document.entries.findIndex(({ problems }) => problems.length > 0);
      const offset = (document.starts[index] ?? 0) + (document.entries[index]?.problems[0]?.span.start ?? 0);
      const lines = text.slice(0, offset).split(/\r\n|\r|\n/);
      return [lines.length, lines.at(-1)?.length ?? 0];
    };
    const text = 'key C\n\n> prose\npattern r\n  strum D Q U\n';
    expect(place(text.replace(/\n/g, '\r\n'))).toEqual(place(text));
    expect(place(text)).toEqual([5, 10]);
  });
});
