import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { LocateAnswer, SourceAnswer } from '../../server/protocol/preview.ts';
import { LessonEditor } from './lesson-editor.ts';
import { LANTERNS, positionOf, rangeOf, textAt } from './lesson-samples.ts';
import { shownAfter, shownAfterAll } from './shown-sheet.ts';

const VIEW = { widthMm: 180, leftHanded: false };

let editor: LessonEditor;
let lessons = 0;
beforeAll(async () => {
  ({ editor } = await LessonEditor.start());
});
afterAll(() => editor.kill());

/** A lesson that is open and followed by a sheet of its own. */
async function followed(text = LANTERNS): Promise<{ readonly uri: string; readonly id: string }> {
  lessons += 1;
  const followed = { uri: `file:///term/lesson-${lessons}.lesson`, id: `sheet ${lessons}` };
  await editor.open(followed.uri, text);
  await editor.subscribe({ ...followed, view: VIEW });
  return followed;
}

describe('a sheet in pages', () => {
  const PAGES = { ...VIEW, page: { paper: 'a4', print: 'normal' } } as const;

  test('is one block a page; a letter changes that page alone', async () => {
    const { uri, id } = await followed();
    await editor.updateTo(id, 1);
    await editor.subscribe({ id, uri, view: PAGES });
    const first = await editor.updateNumber(id, 2);
    if (first.kind !== 'full') throw new Error('a page that has just turned to pages holds none of them');
    expect(first.blocks.length).toBeGreaterThan(0);
    expect(new Set(first.blocks.map(({ kind }) => kind))).toEqual(new Set(['page']));
    expect(first.blocks[0]?.markup).toContain(`aria-label="Page 1 of ${first.blocks.length}"`);
    await editor.change(uri, 2, [{ range: rangeOf(LANTERNS, 'Plant i and m'), text: 'Plant both fingers' }]);
    const second = await editor.updateTo(id, 2);
    if (second.kind !== 'patch') throw new Error('all pages came for one word');
    expect(second.operations.filter(({ kind }) => kind !== 'keep').map(({ kind }) => kind)).toEqual(['replace']);
  });

  test('large print has more pages, and one page is refused in words when it cannot be', async () => {
    const { uri, id } = await followed(`${LANTERNS}\n${'exercise  Again\n  play  verse\n  with  roll\n'.repeat(8)}`);
    await editor.updateTo(id, 1);
    const counts: number[] = [];
    for (const print of ['normal', 'large', 'one-page'] as const) {
      await editor.subscribe({ id, uri, view: { ...VIEW, page: { paper: 'letter', print } } });
      const update = await editor.updateNumber(id, counts.length + 2);
      const blocks = update.kind === 'full' ? update.blocks : [];
      counts.push(blocks.filter(({ kind }) => kind === 'page').length);
      if (print === 'one-page') expect(blocks[0]?.markup).toMatch(/does not fit on one Letter page/);
    }
    expect(counts[1]).toBeGreaterThan(counts[0] ?? 0);
    expect(counts[2]).toBe(counts[0]);
  });

  test('the cursor is told its place on the page, and the place leads back', async () => {
    const { uri, id } = await followed();
    await editor.updateTo(id, 1);
    await editor.subscribe({ id, uri, view: PAGES });
    const { revision } = await editor.updateNumber(id, 2);
    const position = positionOf(LANTERNS, '| G |', 2);
    const located = await editor.ask<LocateAnswer>('handspan/preview/locate', { id, position });
    if (located.kind !== 'block' || located.place === undefined) throw new Error('no place on a page');
    const question = { id, revision, slot: located.slot, place: located.place };
    const found = await editor.ask<SourceAnswer>('handspan/preview/source', question);
    if (found.kind !== 'found') throw new Error(`the place is ${found.kind}`);
    expect(textAt(LANTERNS, found)).toBe('G');
  });
});

describe('a sheet that follows its lesson', () => {
  test('the first sheet is a full one, then only what has changed comes', async () => {
    const { uri, id } = await followed();
    const first = await editor.updateTo(id, 1);
    expect(first.kind).toBe('full');
    await editor.change(uri, 2, [{ range: rangeOf(LANTERNS, 'Plant i and m'), text: 'Plant both fingers' }]);
    const second = await editor.updateTo(id, 2);
    if (second.kind !== 'patch') throw new Error('a full sheet came for one word');
    const changed = second.operations.filter(({ kind }) => kind !== 'keep');
    expect(changed.map(({ kind }) => kind)).toEqual(['replace']);
    expect(JSON.stringify(changed)).toContain('Plant both fingers');
  });

  test('the sheet comes before the problems of the same text', async () => {
    const { uri, id } = await followed();
    await editor.updateTo(id, 1);
    const order: string[] = [];
    const change = editor.change(uri, 2, [{ range: rangeOf(LANTERNS, '0-0-0-3'), text: '0-0-0-4' }]);
    await Promise.all([
      change,
      editor.updateTo(id, 2).then(() => order.push('sheet')),
      editor.diagnosticsOf(uri, 2).then(() => order.push('problems')),
    ]);
    expect(order).toEqual(['sheet', 'problems']);
  });

  test('blank lines at the top change no block, and the page still learns the version', async () => {
    const { uri, id } = await followed();
    await editor.updateTo(id, 1);
    await editor.change(uri, 2, [
      { range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } }, text: '\n\n' },
    ]);
    const update = await editor.updateTo(id, 2);
    expect(update).toMatchObject({ kind: 'patch', version: 2 });
    if (update.kind === 'patch') expect(update.operations.every(({ kind }) => kind === 'keep')).toBe(true);
  });

  test('texts that come all at once end in the newest sheet and in one set of problems', async () => {
    const { uri, id } = await followed();
    await editor.updateTo(id, 1);
    const last = 41;
    const place = positionOf(LANTERNS, 'Plant i and m');
    // Not awaited one by one, so that they lie in the server's queue together.
    const sent = [];
    for (let version = 2; version <= last; version += 1) {
      sent.push(editor.change(uri, version, [{ range: { start: place, end: place }, text: 'o' }]));
    }
    await Promise.all(sent);
    await editor.diagnosticsOf(uri, last);
    expect(JSON.stringify(shownAfterAll(editor.updatesSoFar(id))?.blocks)).toContain(`${'o'.repeat(last - 1)}Plant`);
    expect(editor.diagnosticsSoFar(uri).length).toBeLessThan(last / 2);
  });

  test('a page that is new or out of step gets a full sheet, one in step a patch', async () => {
    const { uri, id } = await followed();
    const first = await editor.updateTo(id, 1);
    await editor.subscribe({ id, uri, view: { ...VIEW, leftHanded: true }, holds: first.revision });
    expect((await editor.updateNumber(id, 2)).kind).toBe('patch');
    await editor.subscribe({ id, uri, view: VIEW, holds: 1 });
    expect((await editor.updateNumber(id, 3)).kind).toBe('full');
    await editor.subscribe({ id, uri, view: VIEW });
    expect((await editor.updateNumber(id, 4)).kind).toBe('full');
  });

  test('a reader may ask what each tone is in its chord, in place of fingers', async () => {
    const { uri, id } = await followed();
    const first = await editor.updateTo(id, 1);
    expect(JSON.stringify(first)).not.toContain('the root');
    await editor.subscribe({ id, uri, view: { ...VIEW, dots: 'roles' } });
    expect(JSON.stringify(await editor.updateNumber(id, 2))).toContain('the root');
  });

  test('a lesson that is closed and opened again goes on in the same panel', async () => {
    const { uri, id } = await followed();
    await editor.updateTo(id, 1);
    await editor.tell('textDocument/didClose', { textDocument: { uri } });
    await editor.open(uri, `${LANTERNS}\n> One more word.\n`, 1);
    await editor.updateNumber(id, 2);
    expect(JSON.stringify(shownAfterAll(editor.updatesSoFar(id))?.blocks)).toContain('One more word.');
  });

  test('after any edits the patched sheet equals the full one, and one drawn at once where nothing is broken', async () => {
    const piece = fc.constantFrom(
      '',
      '\n',
      'chord  Am  2-0-0-0\n',
      '> Sing it.\n',
      '  | G | D |\n',
      'x',
      '\r\n',
      '🎶',
      'pattern p\n  pick 4 3\n',
    );
    const edits = fc.array(fc.record({ at: fc.nat(), length: fc.nat({ max: 30 }), piece }), {
      minLength: 1,
      maxLength: 8,
    });
    let compared = 0;
    await fc.assert(
      fc.asyncProperty(edits, async (changes) => {
        const { uri, id } = await followed();
        let text = LANTERNS;
        let version = 1;
        for (const { at, length, piece: insert } of changes) {
          const start = at % (text.length + 1);
          const end = Math.min(text.length, start + length);
          version += 1;
          await editor.change(uri, version, [
            { range: { start: place(text, start), end: place(text, end) }, text: insert },
          ]);
          text = text.slice(0, start) + insert + text.slice(end);
        }
        await editor.updateTo(id, version);
        const patched = shownAfterAll(editor.updatesSoFar(id));
        await editor.subscribe({ id, uri, view: VIEW });
        const inFull = shownAfter(undefined, await editor.updateNumber(id, (patched?.revision ?? 0) + 1));
        expect(patched?.blocks).toEqual(inFull?.blocks);
        const afresh = await followed(text);
        const drawnAtOnce = shownAfter(undefined, await editor.updateTo(afresh.id, 1));
        // The last good drawing depends on what was there before, which a sheet drawn at once cannot know.
        if (patched?.blocks.every(({ stale }) => stale === undefined)) {
          expect(patched.blocks).toEqual(drawnAtOnce?.blocks);
          compared += 1;
        }
        // The same text gives the same problems, whichever way it came about.
        const [byEdits, atOnce] = await Promise.all([
          editor.diagnosticsOf(uri, version),
          editor.diagnosticsOf(afresh.uri, 1),
        ]);
        expect(byEdits.diagnostics).toEqual(atOnce.diagnostics);
      }),
      { seed: 20, numRuns: 60 },
    );
    expect(compared).toBeGreaterThan(10);
  });
});

describe('from the sheet to the lesson and back', () => {
  test('a place leads to its words, and the cursor there finds the block again', async () => {
    const { uri, id } = await followed();
    const { revision } = await editor.updateTo(id, 1);
    const located = await editor.ask<LocateAnswer>('handspan/preview/locate', {
      id,
      position: positionOf(LANTERNS, '0-2-3-2'),
    });
    if (located.kind !== 'block') throw new Error(`no block at the chord: ${located.kind}`);
    expect(located.revision).toBe(revision);
    // G is the third of the row.
    const question = { id, revision, slot: located.slot, place: 2 };
    const source = await editor.ask<SourceAnswer>('handspan/preview/source', question);
    if (source.kind !== 'found') throw new Error(`no source: ${source.kind}`);
    expect(source.uri).toBe(uri);
    expect(textAt(LANTERNS, source)).toContain('0-2-3-2');
  });

  test('the cursor in a progression finds the bars that an exercise plays from it', async () => {
    const { id } = await followed();
    const shown = shownAfterAll([await editor.updateTo(id, 1)]);
    const position = positionOf(LANTERNS, '| G |', 2);
    const located = await editor.ask<LocateAnswer>('handspan/preview/locate', { id, position });
    if (located.kind !== 'block') throw new Error(`no block at the bar: ${located.kind}`);
    expect(shown?.blocks[located.slot]?.kind).toBe('system');
  });

  test('the cursor at the end of the last statement finds what is drawn from it, not the legend below', async () => {
    const last = `${LANTERNS}\nexercise  Once more\n  play  verse\n  with  roll`;
    const { id } = await followed(last);
    const shown = shownAfterAll([await editor.updateTo(id, 1)]);
    const legend = shown?.blocks.findIndex(({ markup }) => markup.includes('Signs on this sheet'));
    expect(legend).toBeGreaterThan(0);
    const position = positionOf(last, 'Once more', last.length - last.indexOf('Once more'));
    const located = await editor.ask<LocateAnswer>('handspan/preview/locate', { id, position });
    if (located.kind !== 'block') throw new Error(`no block at the end: ${located.kind}`);
    expect(located.slot).not.toBe(legend);
    expect(['system', 'exercise']).toContain(shown?.blocks[located.slot]?.kind);
  });

  test('every marked place of the sheet is a stretch of the lesson', async () => {
    const { id } = await followed();
    const shown = shownAfterAll([await editor.updateTo(id, 1)]);
    let places = 0;
    for (const [slot, { markup }] of (shown?.blocks ?? []).entries()) {
      for (const [, number] of markup.matchAll(/data-place="(\d+)"/g)) {
        const question = { id, revision: shown?.revision, slot, place: Number(number) };
        expect(await editor.ask<SourceAnswer>('handspan/preview/source', question)).toMatchObject({ kind: 'found' });
        places += 1;
      }
    }
    expect(places).toBeGreaterThan(0);
  });

  test('a picture that is no longer the newest is outdated, a place that never was is unknown', async () => {
    const { uri, id } = await followed();
    const { revision } = await editor.updateTo(id, 1);
    const ask = (question: object) =>
      editor.ask<SourceAnswer>('handspan/preview/source', { id, revision, slot: 0, ...question });
    expect(await ask({ slot: 9999 })).toEqual({ kind: 'unknown' });
    expect(await ask({ place: 9999 })).toEqual({ kind: 'unknown' });
    expect(await ask({ id: 'nobody' })).toEqual({ kind: 'unknown' });
    await editor.change(uri, 2, [{ range: rangeOf(LANTERNS, 'Paper'), text: 'Rice paper' }]);
    await editor.updateTo(id, 2);
    expect(await ask({})).toEqual({ kind: 'outdated' });
  });
});

function place(text: string, offset: number): { line: number; character: number } {
  const lines = text.slice(0, offset).split(/\r\n|\r|\n/);
  return { line: lines.length - 1, character: lines.at(-1)?.length ?? 0 };
}
