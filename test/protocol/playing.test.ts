import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { PerformanceAnswer } from '../../server/protocol/playing.ts';
import { PERFORMANCE_METHOD } from '../../server/protocol/playing.ts';
import { LessonEditor } from './lesson-editor.ts';
import { LANTERNS, positionOf, rangeOf } from './lesson-samples.ts';
import { shownAfterAll } from './shown-sheet.ts';

const VIEW = { widthMm: 180, leftHanded: false };

let editor: LessonEditor;
let lessons = 0;
beforeAll(async () => {
  ({ editor } = await LessonEditor.start());
});
afterAll(() => editor.kill());

interface Followed {
  readonly uri: string;
  readonly id: string;
  readonly revision: number;
  /** The block that holds this text. */
  readonly slot: (text: string) => number;
}

async function followed(text = LANTERNS, view: object = VIEW): Promise<Followed> {
  lessons += 1;
  const uri = `file:///term/playing-${lessons}.lesson`;
  const id = `playing ${lessons}`;
  await editor.open(uri, text);
  await editor.subscribe({ id, uri, view: { ...VIEW, ...view } });
  const { revision } = await editor.updateTo(id, 1);
  const shown = shownAfterAll(editor.updatesSoFar(id));
  return { uri, id, revision, slot: (piece) => shown?.blocks.findIndex(({ markup }) => markup.includes(piece)) ?? -1 };
}

function ask(question: object): Promise<PerformanceAnswer> {
  return editor.ask<PerformanceAnswer>(PERFORMANCE_METHOD, question);
}

function found(answer: PerformanceAnswer): Extract<PerformanceAnswer, { kind: 'found' }> {
  if (answer.kind !== 'found') throw new Error(`the answer is ${JSON.stringify(answer)}`);
  return answer;
}

/** The exercise of the sample by its title, and what is at the cursor or selected. */
const TITLE = /exercise\s+(.+)/.exec(LANTERNS)?.[1] ?? '';

describe('what an exercise sounds like', () => {
  test('is asked for by its title on the sheet', async () => {
    const { id, revision, slot } = await followed();
    const answer = found(await ask({ kind: 'title', id, revision, slot: slot(TITLE), place: 0 }));
    expect(answer.performance.title).toBe(TITLE);
    expect(answer.performance.sounds.length).toBeGreaterThan(0);
    expect([answer.from, answer.to]).toEqual([0, answer.performance.bars.length]);
  });

  test('plays the edition that is looked at', async () => {
    const text = LANTERNS.replace(/\nfor .*/, '$&\nalso baritone ukulele, same shapes, called low');
    const pitches = async (view: object): Promise<readonly (number | undefined)[]> => {
      const { id, revision, slot } = await followed(text, view);
      const answer = found(await ask({ kind: 'title', id, revision, slot: slot(TITLE), place: 0 }));
      return answer.performance.sounds.map(({ midi }) => midi);
    };
    // Source: a baritone's strings D3 G3 B3 E4 against C4 E4 A4: a fourth lower on string 1.
    const own = await pitches({});
    const low = await pitches({ edition: 'low' });
    expect(low.length).toBe(own.length);
    expect(Math.max(...low.flatMap((midi) => midi ?? []))).toBe(Math.max(...own.flatMap((midi) => midi ?? [])) - 5);
  });

  test('of a sheet that is no longer the newest is outdated; of what is no title, unknown', async () => {
    const { uri, id, revision, slot } = await followed();
    expect(await ask({ kind: 'title', id, revision: revision + 1, slot: slot(TITLE), place: 0 })).toEqual({
      kind: 'outdated',
    });
    expect(await ask({ kind: 'title', id, revision, slot: 0, place: 0 })).toEqual({ kind: 'unknown' });
    expect(await ask({ kind: 'title', id: 'nobody', revision, slot: 0, place: 0 })).toEqual({ kind: 'unknown' });
    expect(await ask({ kind: 'title', id })).toEqual({ kind: 'unknown' });
    await editor.change(uri, 2, [{ range: rangeOf(LANTERNS, TITLE), text: 'Another name' }]);
    await editor.updateTo(id, 2);
    expect(await ask({ kind: 'title', id, revision, slot: slot(TITLE), place: 0 })).toEqual({ kind: 'outdated' });
  });

  test('in pages too', async () => {
    const { id, revision } = await followed(LANTERNS, { page: { paper: 'a4', print: 'normal' } });
    const start = positionOf(LANTERNS, TITLE, 1);
    const byCursor = found(await ask({ kind: 'selection', id, start, end: start }));
    const byTitle = found(await ask({ kind: 'title', id, revision, slot: byCursor.slot, place: byCursor.place }));
    expect(byTitle.performance).toEqual(byCursor.performance);
  });
});

describe('what stands at the cursor', () => {
  test('a chord of a progression plays the exercise from its bar', async () => {
    const { id } = await followed();
    const start = positionOf(LANTERNS, '| G |', 2);
    const { from, performance, selected } = found(await ask({ kind: 'selection', id, start, end: start }));
    expect(performance.title).toBe(TITLE);
    const written = performance.bars[from]?.written;
    expect(written).toBe(2);
    expect(selected).toBe(false);
  });

  test('bars that are selected are looped', async () => {
    const { id } = await followed();
    const start = positionOf(LANTERNS, '| C | G |', 2);
    const end = positionOf(LANTERNS, '| C | G |', 7);
    const { from, to, performance, selected } = found(await ask({ kind: 'selection', id, start, end }));
    expect(performance.bars.slice(from, to).map(({ written }) => written)).toEqual([1, 2]);
    expect(selected).toBe(true);
  });

  test('what no exercise plays is told in words', async () => {
    const { id } = await followed();
    const start = positionOf(LANTERNS, 'lesson', 1);
    const answer = await ask({ kind: 'selection', id, start, end: start });
    if (answer.kind !== 'nothing') throw new Error(`the answer is ${answer.kind}`);
    expect(answer.sentence).toMatch(/No exercise plays/);
  });
});
