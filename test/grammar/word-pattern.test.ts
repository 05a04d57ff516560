import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

interface Pattern {
  readonly pattern: string;
  readonly flags?: string;
}
const configuration = JSON.parse(
  readFileSync(new URL('../../syntaxes/language-configuration.json', import.meta.url), 'utf8'),
) as {
  readonly wordPattern: Pattern;
  readonly autoClosingPairs: readonly { readonly open: string }[];
  readonly indentationRules: { readonly increaseIndentPattern: Pattern; readonly decreaseIndentPattern: Pattern };
  readonly onEnterRules: readonly {
    readonly beforeText: Pattern;
    readonly action: { readonly indent: string; readonly appendText?: string };
  }[];
};

function wordsIn(line: string): readonly string[] {
  const { pattern, flags } = configuration.wordPattern;
  return [...line.matchAll(new RegExp(pattern, `${flags ?? ''}g`))].map(([word]) => word);
}

test.each([
  ['D(add9)'],
  ['F#m7'],
  ['F♯m7♭5'],
  ['C△7'],
  ['G6/9'],
  ['G/B'],
  ['E-'],
  ['E+'],
  ['Em.high'],
  ['0-4-3-2'],
  ['0-4-'],
  ['roll-end'],
  ['1:5'],
  ['1m:5h7!'],
  ['4p+1m'],
  ['4p!+1m:5h7+2i'],
  ['D43~'],
  ['(U)'],
  ['thumb4'],
  ['Übung'],
])('%s is one word', (word) => expect(wordsIn(`x ${word} y`)).toEqual(['x', word, 'y']));

test.each([
  [
    'a sentence',
    '> Hold Em.high, then @C6 (not D). Don’t hurry.',
    ['Hold', 'Em.high', 'then', 'C6', 'not', 'D', 'Don’t', 'hurry'],
  ],
  ['bars', '|: Em|C/G :|', ['Em', 'C/G']],
  ['a list', 'over D(add9), C6', ['over', 'D(add9)', 'C6']],
  ['patterns that sound together', 'with roll+climb', ['with', 'roll', 'climb']],
])('words of %s', (_name, line, words) => expect(wordsIn(line)).toEqual(words));

function enterAfter(line: string): string | undefined {
  const rule = configuration.onEnterRules.find(({ beforeText }) =>
    new RegExp(beforeText.pattern, beforeText.flags).test(line),
  );
  return rule === undefined ? undefined : rule.action.indent + (rule.action.appendText ?? '');
}

test.each([
  ['prose goes on', '> Play slowly.', 'none> '],
  ['indented prose goes on', '  > Play slowly.', 'none> '],
  ['an empty prose line ends it', '> ', 'none'],
  ['a block indents', 'pattern  roll', 'indent'],
  ['an exercise with a title indents', 'exercise Roll the changes', 'indent'],
  ['a pattern of an edition indents further', '  pattern  roll', 'indent'],
  ['a chord line does not', 'chord  Em  0-4-3-2', undefined],
  ['a word that only begins like a block does not', 'patterns', undefined],
  ['an empty indented line leaves the block', '  ', 'outdent'],
  ['a row keeps its indent', '  pick  4p 3i', undefined],
])('Enter: %s', (_name, line, action) => expect(enterAfter(line)).toBe(action));

test('quotation marks are not closed by themselves: they are inches, minutes and speech', () => {
  expect(configuration.autoClosingPairs.map(({ open }) => open)).toEqual(['(']);
});

test.each([
  ['pattern roll', true],
  ['Exercise Title', true],
  ['  melody climb', true],
  ['chord C 0003', false],
  ['  count 1 2', false],
])('the line below "%s" indents: %s', (line, indents) => {
  const { pattern, flags } = configuration.indentationRules.increaseIndentPattern;
  expect(new RegExp(pattern, flags).test(line)).toBe(indents);
});

test.each([
  ['  exercise', true],
  ['  page', true],
  ['  play verse', false],
  ['  chord C', false],
  ['  words la', false],
])('"%s" moves to the margin while it is typed: %s', (line, moves) => {
  const { pattern, flags } = configuration.indentationRules.decreaseIndentPattern;
  expect(new RegExp(pattern, flags).test(line)).toBe(moves);
});
