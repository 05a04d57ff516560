import { expect, test } from 'vitest';
import { runHostSuite } from './run-host-suite.ts';
import { whichEditor } from './which-editor.ts';

// The suite runs once, inside the editor; each of its cases then counts as a test here.
const results = await runHostSuite(whichEditor());

test('the suite has cases', () => {
  expect(results.length).toBeGreaterThan(0);
});

test.each(results)('$name', ({ ok, message }) => {
  if (!ok) throw new Error(message);
});
