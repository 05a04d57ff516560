import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { problemsOf } from '../../shared/lesson/check/problems.ts';
import { openDocument } from '../../shared/lesson/document.ts';
import { completed, examplesIn } from '../language-reference/examples.ts';

interface Snippet {
  readonly prefix: string | readonly string[];
  readonly description: string;
  readonly body: readonly string[];
}
const snippets = Object.entries(
  JSON.parse(readFileSync(new URL('../../syntaxes/handspan.code-snippets', import.meta.url), 'utf8')) as Readonly<
    Record<string, Snippet>
  >,
);
const reference = readFileSync(new URL('../../shared/lesson/LANGUAGE.md', import.meta.url), 'utf8');
const frame = examplesIn(reference)[0]?.text ?? '';

/** The snippet as the editor writes it when every stop is left as it is. Of a choice the editor takes the first. */
function expanded(body: readonly string[]): string {
  return body
    .join('\n')
    .replace(/\$\{\d+\|((?:[^|\\]|\\.)*)\|\}/g, (_stop, choices: string) =>
      (choices.split(/(?<!\\),/)[0] ?? '').replace(/\\(.)/g, '$1'),
    )
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/\$\d+/g, '');
}

test('the stops of a snippet are all filled in', () => {
  for (const [, { body }] of snippets) expect(expanded(body)).not.toMatch(/[${}]/);
});

test.each(snippets)('%s reads and checks without an error or a warning', (_name, { body }) => {
  const text = expanded(body);
  const lesson = text.startsWith('lesson') ? text : completed({ line: 0, text, completion: 'statements' }, frame);
  const faults = problemsOf(openDocument(lesson)).filter(
    ({ severity }) => severity === 'error' || severity === 'warning',
  );
  expect(faults.map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
});

test.each(snippets)(
  '%s says what it is and begins with a word that a teacher would type',
  (_name, { prefix, description }) => {
    expect(description).toMatch(/^[A-Z]/);
    for (const word of [prefix].flat()) expect(word).toMatch(/^[a-z]+$/);
  },
);
