import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { problemsOf } from '../../shared/lesson/check/problems.ts';
import { openDocument } from '../../shared/lesson/document.ts';
import { KEYWORDS } from '../../shared/lesson/syntax/keywords.ts';
import { ALL_CONSTRUCTS, constructsIn } from '../samples/constructs.ts';
import { completed, type Example, examplesIn, openCompleted } from './examples.ts';

const reference = readFileSync(new URL('../../shared/lesson/LANGUAGE.md', import.meta.url), 'utf8');
const examples = examplesIn(reference);
const frame = examples[0]?.text ?? '';
const good = examples.filter((example) => example.mistake === undefined);
const mistakes = examples.filter((example) => example.mistake !== undefined);

/** What a teacher would be told that is more than advice: `error row.too-short: 5 marks …`. */
function faultsIn(
  example: Example,
): readonly { readonly code: string; readonly said: string; readonly grave: boolean }[] {
  const text = completed(example, frame);
  return problemsOf(openDocument(text)).map(({ code, severity, message, span }) => ({
    code,
    said: `${severity} ${code} at "${text.slice(span.start, span.end)}": ${message}`,
    grave: severity === 'error' || severity === 'warning',
  }));
}

describe('every good example reads and checks without an error or a warning', () => {
  test.each(good.map((example) => [`line ${example.line}`, example] as const))('%s', (_line, example) => {
    expect(
      faultsIn(example)
        .filter(({ grave }) => grave)
        .map(({ said }) => said),
    ).toEqual([]);
  });
});

describe('every mistake is told as the reference says, and nothing else is', () => {
  test.each(mistakes.map((example) => [`line ${example.line}: ${example.mistake}`, example] as const))(
    '%s',
    (_line, example) => {
      const faults = faultsIn(example);
      expect(faults.map(({ code }) => code)).toContain(example.mistake);
      expect(faults.filter(({ code, grave }) => grave && code !== example.mistake).map(({ said }) => said)).toEqual([]);
    },
  );
});

test('the reference holds what it says: one whole lesson first, and plenty of both kinds', () => {
  expect(examples[0]?.completion).toBeUndefined();
  expect(good.length).toBeGreaterThan(40);
  expect(mistakes.length).toBeGreaterThan(15);
});

test('every construct of the language stands in an example', () => {
  const used = new Set(good.flatMap((example) => [...constructsIn(openCompleted(example, frame))]));
  expect(ALL_CONSTRUCTS.filter((construct) => !used.has(construct))).toEqual([]);
});

test('every keyword is named in the text', () => {
  const prose = reference.replace(/^```[\s\S]*?^```$/gm, '');
  const missing = Object.values(KEYWORDS)
    .flat()
    .map(({ word }) => word)
    .filter((word) => !new RegExp(`\`${word}\\b|### .*\\b${word}\\b`).test(prose));
  expect([...new Set(missing)]).toEqual([]);
});
