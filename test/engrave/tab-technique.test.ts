import { expect, test } from 'vitest';
import { systemsOf } from '../../shared/engrave/tab-system.ts';
import type { DrawnTechnique } from '../../shared/engrave/tab-technique.ts';
import { arrivalBefore, techniqueAfter } from '../../shared/engrave/tab-technique.ts';
import type { ScoreEvent } from '../../shared/score/timeline.ts';
import { inkedOf } from './collisions/inked.ts';
import { bar, score } from './hand-made.ts';

/** How far the slanting stroke of a slide rises on the page. */
function riseOf({ items }: DrawnTechnique): number {
  const stroke = items.find((item) => item.kind === 'line');
  if (stroke?.kind !== 'line') throw new Error('no stroke');
  return stroke.y1 - stroke.y2;
}

// From looking at prints: a bow ran into the ring of the figure that it leads to, and began far from the one that it comes from.
test.each(['t1:5 . t1:7 . t1:5 . . .', 't1:5 t1:7 t1:5 . . . t1:12 .', 't1:10 . . . . . t1:12 .'])(
  'a bow leads from the note before to the note that is reached, over neither: %s',
  (tune) => {
    const struck = bar({ number: 1, counts: '1 & 2 & 3 & 4 &', play: '4p:0 . . . 4p:0 . . .', also: [tune] });
    let reached = -1;
    const events = struck.events.map((event): ScoreEvent => {
      if (event.kind !== 'notes' || event.layer !== 'tune') return event;
      reached++;
      const arrivesBy = reached % 2 === 1 ? ('hammer-on' as const) : ('pull-off' as const);
      return reached === 0 ? event : { ...event, notes: event.notes.map((note) => ({ ...note, arrivesBy })) };
    });
    const exercise = score([{ ...struck, events }]);
    const [pass] = exercise.passes;
    const [system] = pass === undefined ? [] : systemsOf(exercise, pass, { widthMm: 150 });
    const inked = inkedOf(system?.drawing ?? { items: [] });
    const rings = inked.filter(({ item }) => item.kind === 'rectangle' && item.ink === 'accent');
    const bows = inked.filter(
      ({ item }) => item.kind === 'path' && /^MCCZ$/.test(item.steps.map(([step]) => step).join('')),
    );
    expect(rings.length).toBe(reached + 1);
    // Ties of the rhythm are bows, too, but stand beside the staff.
    const between = bows.flatMap(({ box }) => {
      const behind = rings.findIndex((ring) => Math.abs(ring.box.x - box.x - box.width) < 0.8);
      const [before, next] = [rings[behind - 1]?.box, rings[behind]?.box];
      return before === undefined || next === undefined || box.y < next.y - 1 ? [] : [{ before, box }];
    });
    expect(between.length).toBe(reached);
    const touched = inked.filter(({ item }) => item.kind === 'text' && item.bold === true).map(({ box }) => box);
    for (const { before, box } of between) {
      // What is struck on other strings in between does not stop it.
      expect(Math.abs(before.x + before.width - box.x)).toBeLessThan(0.8);
      for (const figure of touched)
        expect(box.y + box.height < figure.y || box.x > figure.x + figure.width || box.x + box.width < figure.x).toBe(
          true,
        );
    }
  },
);

// Common practice, no source: a bow between the same two figures is a tie, and says that nothing is struck.
test.each(['vibrato', 'bend', 'trill', 'harmonic'] as const)('a note that is kept on by %s', (kind) => {
  const struck = bar({ number: 1, counts: '1 2 3 4', play: '1:5 . 1:5 .' });
  const events = struck.events.map(
    (event, index): ScoreEvent =>
      event.kind === 'notes' && index === 1
        ? { ...event, notes: event.notes.map((note) => ({ ...note, arrivesBy: kind })) }
        : event,
  );
  const exercise = score([{ ...struck, events }]);
  const [pass] = exercise.passes;
  const [system] = pass === undefined ? [] : systemsOf(exercise, pass, { widthMm: 150 });
  const bows = inkedOf(system?.drawing ?? { items: [] }).filter(
    ({ item }) => item.kind === 'path' && /^MCCZ$/.test(item.steps.map(([step]) => step).join('')),
  );
  // A harmonic is plucked.
  expect(bows).toHaveLength(kind === 'harmonic' ? 0 : 1);
});

// Common practice, no source: the stroke of a slide goes up the page to a higher fret and down to a lower one.
test.each([
  ['up the neck', 5, 7, 1],
  ['down the neck', 7, 5, -1],
])('a slide %s', (_name, from, to, direction) => {
  expect(Math.sign(riseOf(techniqueAfter({ kind: 'slide', fret: to }, 0, 0, 0, from)))).toBe(direction);
  expect(Math.sign(riseOf(arrivalBefore('slide', 1, 0, to - from)))).toBe(direction);
});
