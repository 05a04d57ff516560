import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { handReport } from './hand.ts';

test('the report on fingerings is what `npm run report:hand` would write today', () => {
  expect(readFileSync(new URL('hand.md', import.meta.url), 'utf8')).toBe(`${handReport()}\n`);
});
