import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { harmonyReport } from './harmony.ts';

test('the report on harmony is what `npm run report:harmony` would write today', () => {
  expect(readFileSync(new URL('harmony.md', import.meta.url), 'utf8')).toBe(`${harmonyReport()}\n`);
});
