import { readdirSync, readFileSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { problemsOf } from '../../../shared/lesson/check/problems.ts';
import { editDocument, openDocument } from '../../../shared/lesson/document.ts';
import { resolveChord } from '../../../shared/lesson/model/chords.ts';
import { occurrencesIn } from '../../../shared/lesson/model/occurrences.ts';
import { createReader, freshProblems, replaced } from './remembering.ts';

/** One seed for all: a failure today is the same failure tomorrow. */
const SEED = 20_261_125;

const folder = new URL('../../../client/samples/', import.meta.url);
const samples = readdirSync(folder)
  .filter((file) => file.endsWith('.lesson'))
  .map((file) => ({ file, text: readFileSync(new URL(file, folder), 'utf8') }));

/** What a teacher types, and slips of the pen that change what other entries read. */
const TYPED = [
  ...['', ' ', '\n', '\n\n', '  ', '.', '|', '-', 'x', '1', '@Em', '//', '> ', ','],
  ...[
    'chord Em 0-4-3-2\n',
    'chord C 0-0-0-1\n',
    'chord Em.high 9-7-7-7\n',
    'for baritone ukulele\n',
    'key D\n',
    'meter 3/4\n',
  ],
  ...[
    'pattern roll\n  pick 4 3 2 1\n',
    'progression verse\n  | C | G |\n',
    'Em',
    'D7',
    'roll',
    'verse',
    'hand child\n',
  ],
  ...['also guitar, same key, called six\n', 'edition six\n  capo 2\n'],
];
const change = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  gone: fc.oneof({ weight: 4, arbitrary: fc.constantFrom(0, 1, 3) }, { weight: 1, arbitrary: fc.nat(60) }),
  // Most edits stand at the head of a line, where they make and unmake statements.
  atLine: fc.boolean(),
  text: fc.constantFrom(...TYPED),
});

describe('problems after any run of edits are those of the new text', () => {
  test.each(samples)('$file', ({ text: whole }) => {
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 5 }), (changes) => {
        let document = openDocument(whole);
        problemsOf(document);
        for (const { at, gone, atLine, text } of changes) {
          const place = Math.floor(at * document.text.length);
          const start = atLine ? document.text.lastIndexOf('\n', place) + 1 : place;
          document = editDocument(document, { span: { start, end: start + gone }, text });
          const problems = problemsOf(document);
          const fresh = freshProblems(document.text);
          if (!isDeepStrictEqual(problems, fresh)) expect(problems).toEqual(fresh);
          for (const { span } of problems) {
            expect(span.start).toBeLessThanOrEqual(span.end);
            expect(span.end).toBeLessThanOrEqual(document.text.length);
          }
        }
      }),
      { seed: SEED, numRuns: 6 },
    );
  });
});

const LESSON = `for tenor ukulele, high G
key C
chord C 0-0-0-3
chord F 2-0-1-0
progression one
  | C | C |
progression two
  | F | F |
pattern roll
  pick 4 3 2 1
exercise first
  play one
  with roll
exercise second
  play two
  with roll
`;

describe('an edit costs what it touches', () => {
  /** Asks for every chord and name that the entry uses, and no more. */
  const reader = () =>
    createReader((scope, { statement }) =>
      occurrencesIn(scope, statement).map(({ chord, kind, text }) =>
        chord !== undefined
          ? resolveChord(scope, chord)
          : kind === 'progression'
            ? scope.progression(text)
            : kind === 'pattern'
              ? scope.grid('pattern', text)
              : undefined,
      ),
    );

  test('everything the first time, nothing the second', () => {
    const read = reader();
    const document = openDocument(LESSON);
    expect(read.workedOut(document)).toHaveLength(document.entries.length);
    expect(read.workedOut(document)).toEqual([]);
    // Read from scratch, equal text is other entries: then everything is new.
    expect(read.workedOut(openDocument(LESSON))).toHaveLength(document.entries.length);
  });

  test('one chord line: that line and what uses the chord', () => {
    const read = reader();
    const document = openDocument(LESSON);
    read.workedOut(document);
    expect(read.workedOut(replaced(document, 'F 2-0-1-0', 'F 2-0-1-x'))).toEqual(['chord F', 'progression two']);
  });

  test('one pattern: that pattern and the exercises that play it', () => {
    const read = reader();
    const document = openDocument(LESSON);
    read.workedOut(document);
    expect(read.workedOut(replaced(document, '4 3 2 1', '4 3 2 .'))).toEqual([
      'pattern roll',
      'exercise first',
      'exercise second',
    ]);
  });

  test.each([
    ['a new first line', 'for tenor', '// A remark.\n> A sentence.\nfor tenor', ['// A', '> A']],
    ['a new chord line that nobody uses', 'progression one', 'chord G 0-2-3-2\nprogression one', ['chord G']],
    ['a word of a title', 'exercise second', 'exercise third', ['exercise third']],
  ])('%s: nothing else is worked out', (_name, old, text, expected) => {
    const read = reader();
    const document = openDocument(LESSON);
    read.workedOut(document);
    expect(read.workedOut(replaced(document, old, text))).toEqual(expected);
  });

  test('another key: the lines that spell by it, not those that only play', () => {
    const asking = createReader((scope, { statement }) =>
      statement.kind === 'progression'
        ? scope.setting('key')
        : statement.kind === 'exercise'
          ? scope.setting('meter')
          : 0,
    );
    const document = openDocument(LESSON);
    asking.workedOut(document);
    expect(asking.workedOut(replaced(document, 'key C', 'key G'))).toEqual([
      'key G',
      'progression one',
      'progression two',
    ]);
  });

  test('the checks of a lesson with a new first line are the same values, only moved', () => {
    const document = openDocument('progression v\n  | C |\n');
    const [before] = problemsOf(document);
    const [after] = problemsOf(editDocument(document, { span: { start: 0, end: 0 }, text: 'key C\n' }));
    expect(after?.message).toBe(before?.message);
    expect(after?.span.start).toBe((before?.span.start ?? 0) + 6);
  });
});
