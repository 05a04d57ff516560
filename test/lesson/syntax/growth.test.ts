import { describe, expect, test } from 'vitest';
import { editDocument, openDocument } from '../../../shared/lesson/document.ts';

type Method = (this: unknown, ...values: unknown[]) => unknown;

/** The ways in which text is looked at: letters read, pieces cut, patterns tried, lists searched. */
const LOOKS: readonly (readonly [object, string])[] = [
  [String.prototype, 'charCodeAt'],
  [String.prototype, 'slice'],
  [String.prototype, 'replace'],
  [RegExp.prototype, 'exec'],
  [RegExp.prototype, 'test'],
  [Array.prototype, 'some'],
];

/** How many times the work looks at a piece of text. Counted, so that no clock can be wrong. */
function steps(work: () => void): number {
  let count = 0;
  const undo = LOOKS.map(([owner, name]) => {
    const original = Reflect.get(owner, name) as Method;
    const counted: Method = function (...values) {
      count++;
      return original.apply(this, values);
    };
    Object.defineProperty(owner, name, { value: counted, configurable: true, writable: true });
    return () => Object.defineProperty(owner, name, { value: original, configurable: true, writable: true });
  });
  try {
    work();
  } finally {
    for (const restore of undo) restore();
  }
  return count;
}

const BLOCKS = `chord  Em  0-4-3-2  fingers 0-3-2-1

progression  verse
  |: Em | C | G | 1st D :| 2nd D ||
  words  la la | la | la | la

pattern  roll
  count  1   &   2   &   3   &   4   &
  pick   4p  2i  3p  1m  4p  2i  3p  1m
  strum  D   .   .   U   .   U   D   .

exercise  Rolling
  play  verse
  with  roll x2
  > Slowly, @Em first.

`;

describe('twice the lesson is twice the work', () => {
  test('whole lessons', () => {
    const small = steps(() => openDocument(BLOCKS.repeat(20)));
    const large = steps(() => openDocument(BLOCKS.repeat(40)));
    expect(small).toBeGreaterThan(20 * BLOCKS.length);
    expect(large / small).toBeGreaterThan(1.9);
    expect(large / small).toBeLessThan(2.1);
  });

  test.each([
    ['a progression', (times: number) => `progression v\n${'  | Em | C / G / |: D :| x2\n'.repeat(times)}`],
    ['one line of bars', (times: number) => `progression v\n  ${'| Em | C '.repeat(times)}|`],
    ['a row of marks', (times: number) => `pattern r\n  pick ${'4p 2i . 1m '.repeat(times)}`],
    ['a strum run together', (times: number) => `pattern r\n  strum ${'D DU UDU '.repeat(times)}`],
    ['a count', (times: number) => `pattern r\n  count ${'| 1 & 2 & 3 & 4 & '.repeat(times)}`],
    ['lines of music', (times: number) => `pattern r\n${'  strum D U\n'.repeat(times)}`],
    ['a list', (times: number) => `exercise e\n  with ${'roll x2, a+b, '.repeat(times)}`],
    ['prose full of mentions', (times: number) => `${'> hold @Em and @C\n'.repeat(times)}`],
    ['open brackets', (times: number) => `chord C${'('.repeat(times * 4)}`],
    [
      'an edition',
      (times: number) => `edition b\n${'  chord G as D 0-2-3-2\n  pattern r\n    strum D\n'.repeat(times)}`,
    ],
    ['lines that make no sense', (times: number) => `pattern r\n${'  zzz\n'.repeat(times)}`],
  ])('%s', (_name, lesson) => {
    const small = steps(() => openDocument(lesson(200)));
    const large = steps(() => openDocument(lesson(400)));
    expect(large / small).toBeLessThan(2.2);
  });
});

test('a keystroke costs the same in a lesson of any length', () => {
  const work = (times: number): number => {
    const document = openDocument(BLOCKS.repeat(times));
    const start = document.text.indexOf('strum', document.text.length / 2);
    return steps(() => editDocument(document, { span: { start, end: start }, text: '.' }));
  };
  // What a name means is remembered once it was read, so the first lesson of all would have looked at more.
  work(40);
  expect(work(400)).toBe(work(40));
});
