import { expect, test } from 'vitest';
import { missingLetters } from '../../../server/hand-out/missing-letters.ts';

test('nothing is said where nothing is missing', () => {
  expect(missingLetters('lesson 漢字', [])).toEqual([]);
});

test.each([
  ['lesson One\n> 漢 and 字', ['漢', '字'], ', in line 2: 漢 字'],
  ['lesson 漢\n\r\n> plain\r\n> 字', ['漢', '字'], ', in lines 1, 4: 漢 字'],
  // A remark is not printed.
  ['lesson One\n  // 漢\n> 漢', ['漢'], ', in line 3: 漢'],
  // What is printed was put together first: ἀ.
  ['lesson One\n> \u03b1\u0313', ['ἀ'], ', in line 2: ἀ'],
  // What no line has comes from us.
  ['lesson One', ['♮'], ': ♮'],
] as const)('%j says letters and lines', (text, missing, said) => {
  expect(missingLetters(text, missing)).toEqual([`No face has these letters, and they stand as empty boxes${said}`]);
});

test('of many, the first are said', () => {
  const letters = Array.from({ length: 25 }, (_, index) => String.fromCodePoint(0x4e00 + index));
  const text = Array.from({ length: 12 }, () => letters.join('')).join('\n');
  const [sentence = ''] = missingLetters(text, letters);
  expect(sentence).toMatch(/in lines 1, 2, 3, 4, 5, 6, 7, 8, 9, 10 and 2 more: 一( .){19} and 5 more$/);
});
