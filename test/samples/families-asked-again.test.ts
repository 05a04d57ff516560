import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { foundIn } from '../assist/asking-answers.ts';

// A sample keeps what was asked as a remark above what was chosen: asked again, the same is offered first, to the letter.

const FOLDER = path.join(import.meta.dirname, '..', '..', 'client', 'samples');
const REMARK = /^\/\/ family .*\n(?:\/\/ {3}.*\n)+\/\/ Found: /gm;

const ASKED = readdirSync(FOLDER)
  .filter((name) => name.endsWith('.lesson'))
  .flatMap((name) => {
    const text = readFileSync(path.join(FOLDER, name), 'utf8');
    return [...text.matchAll(REMARK)].map(({ 0: remark, index }) => ({
      name: `${name}, ${remark.split('\n')[0]}`,
      text,
      // The lesson as it was when it asked: what came later may count on the answer.
      before: text.slice(0, index) + remark.replace(/^\/\/ (Found: )?/gm, ''),
    }));
  });

test('the samples hold families that were asked for', () => expect(ASKED.length).toBeGreaterThanOrEqual(3));

test.each(ASKED)('$name', ({ text, before }) => {
  const [first] = foundIn(before).writings;
  expect(first?.edits).toHaveLength(1);
  expect(text).toContain(first?.edits[0]?.text);
});
