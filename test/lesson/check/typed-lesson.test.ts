import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { problemsOf } from '../../../shared/lesson/check/problems.ts';
import { editDocument, openDocument } from '../../../shared/lesson/document.ts';

/** The first lesson of the reference: it holds a line of nearly every kind. */
const REFERENCE = /```lesson\n([\s\S]*?)```/.exec(
  readFileSync(new URL('../../../shared/lesson/LANGUAGE.md', import.meta.url), 'utf8'),
)?.[1];

/** What is told loudly of the line that is being typed at the end of the text, at any of its letters. */
function loudWhileTyping(lesson: string): readonly string[] {
  const found: string[] = [];
  let start = 0;
  let document = openDocument('');
  for (const line of lesson.split('\n')) {
    for (let typed = 1; typed <= line.length; typed += 1) {
      const end = document.text.length;
      // Line ends are typed with the letter behind them.
      document = editDocument(document, { span: { start: end, end }, text: lesson.slice(end, start + typed) });
      for (const { span, severity, unfinished, code, message } of problemsOf(document)) {
        const isLoud = (severity === 'error' || severity === 'warning') && unfinished !== true;
        if (isLoud && span.end > start) found.push(`${line.slice(0, typed)} → ${code}: ${message}`);
      }
    }
    start += line.length + 1;
  }
  return found;
}

test('the lesson of the reference is told of nothing loudly at any letter while it is typed', () => {
  expect(REFERENCE?.length).toBeGreaterThan(500);
  expect(loudWhileTyping(REFERENCE ?? '')).toEqual([]);
}, 120_000);
