import { expect, test } from 'vitest';
import type { DrawnTechnique } from '../../shared/engrave/tab-technique.ts';
import { arrivalBefore, techniqueAfter } from '../../shared/engrave/tab-technique.ts';

/** How far the slanting stroke of a slide rises on the page. */
function riseOf({ items }: DrawnTechnique): number {
  const stroke = items.find((item) => item.kind === 'line');
  if (stroke?.kind !== 'line') throw new Error('no stroke');
  return stroke.y1 - stroke.y2;
}

// Common practice, no source: the stroke of a slide goes up the page to a higher fret and down to a lower one.
test.each([
  ['up the neck', 5, 7, 1],
  ['down the neck', 7, 5, -1],
])('a slide %s', (_name, from, to, direction) => {
  expect(Math.sign(riseOf(techniqueAfter({ kind: 'slide', fret: to }, 0, 0, 0, from)))).toBe(direction);
  expect(Math.sign(riseOf(arrivalBefore('slide', 1, 0, to - from)))).toBe(direction);
});
