import { describe, expect, test } from 'vitest';
import { scanLines } from '../../../shared/lesson/syntax/scan-lines.ts';
import { entryStarts } from '../../../shared/lesson/syntax/split-entries.ts';

/** Every piece of a line as `kind "text"`, blanks and line ends left out. */
function pieces(text: string): readonly string[] {
  return scanLines(text).flatMap(({ tokens }) =>
    tokens
      .filter(({ kind }) => kind !== 'blank' && kind !== 'line-end')
      .map(({ kind, start, end }) => `${kind} "${text.slice(start, end)}"`),
  );
}

describe('pieces of a line', () => {
  test.each([
    ['words', 'chord Em', ['word "chord"', 'word "Em"']],
    ['a comma between members', 'a, b', ['word "a"', 'comma ","', 'word "b"']],
    ['a comma inside a chord name', 'C(add9,omit3) D', ['word "C(add9,omit3)"', 'word "D"']],
    [
      'a bracket never closed ends with its word',
      'C(add9 D, E',
      ['word "C(add9"', 'word "D"', 'comma ","', 'word "E"'],
    ],
    [
      'bar signs without blanks',
      '|:Em|C:|',
      ['bar-sign "|:"', 'word "Em"', 'bar-sign "|"', 'word "C"', 'bar-sign ":|"'],
    ],
    ['repeats back to back', 'Em :|: C ||', ['word "Em"', 'bar-sign ":|:"', 'word "C"', 'bar-sign "||"']],
    ['a place on the neck is one word', '1:5 2:7h9', ['word "1:5"', 'word "2:7h9"']],
    ['a remark', '  // C# here', ['comment "// C# here"']],
    [
      'two strokes later in a line are no remark',
      'by Ann // Bob',
      ['word "by"', 'word "Ann"', 'word "//"', 'word "Bob"'],
    ],
    ['prose', '  > Hello', ['prose-mark ">"', 'prose " Hello"']],
    ['full-width signs', '｜Em，＞', ['bar-sign "｜"', 'word "Em"', 'comma "，"', 'word "＞"']],
    ['a full-width prose mark', '＞ Hi', ['prose-mark "＞"', 'prose " Hi"']],
    ['a byte-order mark', '\ufeffkey C', ['byte-order-mark "\ufeff"', 'word "key"', 'word "C"']],
    ['the same sign inside a line is a blank', 'key\ufeffC', ['word "key"', 'word "C"']],
  ])('%s', (_name, text, expected) => expect(pieces(text)).toEqual(expected));

  test.each([
    ['\n', 3],
    ['\r\n', 3],
    ['\r', 3],
  ])('%j ends a line', (end, lines) => expect(scanLines(`a${end}b${end}c`)).toHaveLength(lines));

  test.each([
    ['  pick', 2],
    ['\tpick', 8],
    ['  \tpick', 8],
    ['\t pick', 9],
    ['\u00a0pick', 1],
  ])('%j is indented by %i', (line, indent) => expect(scanLines(line)[0]?.indent).toBe(indent));
});

/** The entries of a lesson, each as its text. */
function entries(text: string): readonly string[] {
  const starts = [...entryStarts(text)];
  return starts.map((start, index) => text.slice(start, starts[index + 1]));
}

describe('where statements begin', () => {
  test.each([
    ['each at the margin', 'key C\nmeter 3/4', ['key C\n', 'meter 3/4']],
    ['indented lines belong to the one above', 'pattern r\n  strum D\nkey C', ['pattern r\n  strum D\n', 'key C']],
    [
      'so do empty lines and remarks (G-4)',
      'pattern r\n\n// C#\n  strum D\nkey C',
      ['pattern r\n\n// C#\n  strum D\n', 'key C'],
    ],
    ['prose lines side by side are one', '> a\n> b\nkey C', ['> a\n> b\n', 'key C']],
    ['prose at the margin ends a statement', 'pattern r\n> a\n> b', ['pattern r\n', '> a\n> b']],
    ['a remark before everything', '// hi\nkey C', ['// hi\n', 'key C']],
    ['nothing', '', ['']],
    ['a lone carriage return ends a line too', 'key C\rmeter 3/4', ['key C\r', 'meter 3/4']],
  ])('%s', (_name, text, expected) => expect(entries(text)).toEqual(expected));
});
