import { expect, test } from 'vitest';
import { notePieces } from '../../shared/engrave/tab-notes.ts';
import { staffOf } from '../../shared/engrave/tab-piece.ts';
import type { DrawnTechnique } from '../../shared/engrave/tab-technique.ts';
import { arrivalBefore, bowEnd, techniqueAfter } from '../../shared/engrave/tab-technique.ts';
import type { ScoreNote } from '../../shared/score/timeline.ts';
import { inkedOf } from './collisions/inked.ts';

/** How far the slanting stroke of a slide rises on the page. */
function riseOf({ items }: DrawnTechnique): number {
  const stroke = items.find((item) => item.kind === 'line');
  if (stroke?.kind !== 'line') throw new Error('no stroke');
  return stroke.y1 - stroke.y2;
}

// From looking at prints: a bow ran into the ring of the figure that it leads to.
test('a bow is thin at its ends and stops before the ring of the figure that it leads to', () => {
  const own = { string: 1, fret: 3, techniques: [], accent: false, restStroke: false };
  const note: ScoreNote = { ...own, arrivesBy: 'pull-off', arrivesFrom: 5 };
  for (const look of ['plain', 'ringed'] as const) {
    const [piece] = notePieces(staffOf(4), [{ note, look }]);
    const inked = inkedOf({ items: piece?.items ?? [] });
    const arc = inked.find(({ item }) => item.kind === 'path');
    const ring = inked.find(({ item }) => item.kind === 'rectangle');
    const figure = inked.find(({ item }) => item.kind === 'text');
    if (arc?.item.kind !== 'path' || figure === undefined) throw new Error('not drawn');
    expect(arc.item.thickness).toBeUndefined();
    expect(arc.box.y + arc.box.height).toBeLessThan(figure.box.y);
    if (look === 'ringed') expect(arc.box.x + arc.box.width).toBeLessThan((ring?.box.x ?? 0) + 0.7);
  }
});

// Common practice, no source: the stroke of a slide goes up the page to a higher fret and down to a lower one.
test.each([
  ['up the neck', 5, 7, 1],
  ['down the neck', 7, 5, -1],
])('a slide %s', (_name, from, to, direction) => {
  expect(Math.sign(riseOf(techniqueAfter({ kind: 'slide', fret: to }, 0, 0, 0, from)))).toBe(direction);
  expect(Math.sign(riseOf(arrivalBefore('slide', 1, 0, to - from, bowEnd(undefined))))).toBe(direction);
});
