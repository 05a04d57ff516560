import { expect, test } from 'vitest';
import { suggestionsAt } from '../../shared/assist/suggestions.ts';
import { problemsOf } from '../../shared/lesson/check/problems.ts';
import { editDocument, openDocument } from '../../shared/lesson/document.ts';

// The style itself is tested with the theory; here, that what is offered follows it and what is written stays.
const LESSON = 'lesson Two\nkey Bb major\nchord Ebmaj7 3-3-3-5\nchord F 2-3-3-3\n\nprogression round\n  | Ebmaj7 | E';

function offered(text: string, style: 'plain' | 'symbols'): readonly (readonly [string, string | undefined])[] {
  return suggestionsAt(openDocument(text, style), text.length).map(({ label, filter }) => [label, filter]);
}

test('names are offered in the teacher’s style and found by the letters that are typed', () => {
  const plain = offered(LESSON, 'plain').map(([label]) => label);
  expect(plain).toContain('Ebmaj7');
  expect(plain).toContain('Em7b5');
  const symbols = offered(LESSON, 'symbols');
  expect(symbols).toContainEqual(['Eø7', 'Em7b5']);
  expect(symbols).toContainEqual(['B♭△7', 'Bbmaj7']);
  // What the lesson itself says keeps its spelling.
  expect(symbols).toContainEqual(['Ebmaj7', undefined]);
});

test('a fix writes the name in that style, also after an edit', () => {
  const fixes = (document: ReturnType<typeof openDocument>) =>
    problemsOf(document)
      .filter(({ code }) => code === 'chord.name')
      .flatMap(({ fixes }) => fixes?.map(({ rename }) => rename) ?? []);
  // A E♭ G C.
  const plain = openDocument(LESSON);
  const symbols = openDocument(LESSON, 'symbols');
  expect(fixes(plain)).toEqual(['Am7b5', 'Cm6']);
  expect(fixes(symbols)).toEqual(['Aø7', 'C-6']);
  const edited = editDocument(symbols, { span: { start: 7, end: 10 }, text: 'Three' });
  expect(fixes(edited)).toEqual(['Aø7', 'C-6']);
});
