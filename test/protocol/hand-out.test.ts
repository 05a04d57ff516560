import { existsSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  HAND_OUT_FILE_METHOD,
  HAND_OUT_LIST_METHOD,
  HAND_OUT_OFFER_METHOD,
  type HandOutFileAnswer,
  type HandOutJob,
  type HandOutOffer,
  type ListedInFolder,
} from '../../server/protocol/hand-out.ts';
import { LessonEditor, SERVER } from './lesson-editor.ts';
import { LANTERNS } from './lesson-samples.ts';

const JOB: HandOutJob = {
  file: 'lanterns.lesson',
  called: 'lanterns',
  text: LANTERNS,
  choice: {
    kinds: ['pdf', 'midi', 'text', 'pictures'],
    editions: 'all',
    page: { paper: 'a4', print: 'normal' },
    look: { ink: 'light', halo: true },
    pictures: ['svg'],
  },
};

// The built server, and the command line's, whose thread makes the files.
describe.each([
  ['the server of the editor', undefined],
  ['the server of the shell', [path.join(path.dirname(SERVER), 'handspan.js'), 'serve', '--stdio']],
])('%s', (_what, command) => {
  let editor: LessonEditor;
  beforeAll(async () => {
    expect(existsSync(path.join(path.dirname(SERVER), 'handspan.js'))).toBe(true);
    ({ editor } = await LessonEditor.start(undefined, command));
  });
  afterAll(() => editor.stop());

  test('offers kinds and editions', async () => {
    const offer = await editor.ask<HandOutOffer>(HAND_OUT_OFFER_METHOD, { text: LANTERNS });
    expect(offer.kinds.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['pdf', 'midi', 'pictures']));
    expect(offer.kinds.every(({ label }) => label.length > 3)).toBe(true);
    expect(offer.editions.length).toBeGreaterThan(0);
  });

  test('lists the files of a lesson that is not open, and makes each; typing is answered meanwhile', async () => {
    const listed = await editor.ask<ListedInFolder>(HAND_OUT_LIST_METHOD, JOB);
    expect(listed.folder).toBe('lanterns');
    const names = listed.files.map(({ name }) => name);
    expect(names[0]).toBe('lanterns.pdf');
    const ask = (name: string) => editor.ask<HandOutFileAnswer | null>(HAND_OUT_FILE_METHOD, { job: JOB, name });
    const order: string[] = [];
    const slow = ask('lanterns.pdf').then((answer) => {
      order.push('sheet');
      return answer;
    });
    await editor.ask<HandOutOffer>(HAND_OUT_OFFER_METHOD, { text: LANTERNS });
    order.push('key');
    const pdf = await slow;
    expect(order).toEqual(['key', 'sheet']);
    expect(
      Buffer.from(pdf?.base64 ?? '', 'base64')
        .subarray(0, 8)
        .toString('latin1'),
    ).toBe('%PDF-1.7');
    const svg = names.find((name) => name.endsWith('.svg')) ?? '';
    const picture = await ask(svg);
    expect(Buffer.from(picture?.base64 ?? '', 'base64').toString('utf8')).toMatch(/^<svg [\s\S]*<\/svg>\n$/);
    expect(await ask('../lanterns.pdf')).toBeNull();
  });

  test('leaves out what has an error, and says which line', async () => {
    const text = LANTERNS.replace(/with( +)roll/, 'with$1rol');
    const listed = await editor.ask<ListedInFolder>(HAND_OUT_LIST_METHOD, { ...JOB, text });
    expect(listed.leftOut.length).toBeGreaterThan(0);
    expect(listed.leftOut[0]?.because.message).toContain('rol');
    expect(text.split('\n')[(listed.leftOut[0]?.because.line ?? 0) - 1]).toMatch(/with +rol/);
  });

  test.each([[null], [{}], [{ ...JOB, choice: { kinds: 'pdf' } }], [{ ...JOB, text: 1 }]])(
    'a malformed question is answered with nothing',
    async (question) => {
      expect(await editor.ask(HAND_OUT_LIST_METHOD, question)).toBeNull();
      expect(await editor.ask(HAND_OUT_FILE_METHOD, { job: question, name: 'x' })).toBeNull();
    },
  );
});
