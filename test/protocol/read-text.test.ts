import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CodeAction, TextDocumentEdit } from 'vscode-languageserver';
import { READ_TEXT_METHOD, type ReadingsOfText } from '../../server/protocol/read-text.ts';
import { LessonEditor } from './lesson-editor.ts';
import { LANTERNS } from './lesson-samples.ts';

/** Case F-1: a bar of sixteen columns. */
const TAB = 'A|----0-------3---|\nE|0-------3-------|\nC|----------------|\nG|----------------|\n';
const COUNTED = `  1   2   3   4\n${TAB}`;

let editor: LessonEditor;
beforeAll(async () => {
  ({ editor } = await LessonEditor.start());
});
afterAll(() => editor.stop());

let next = 0;
/** Opens a lesson and asks how a text may be read at a place of it. */
async function readings(lesson: string, line: number, text: string, count?: string): Promise<ReadingsOfText> {
  next += 1;
  const uri = `file:///pasted-${next}.lesson`;
  await editor.open(uri, lesson);
  const more = { text, ...(count === undefined ? {} : { count }) };
  const answer = await editor.askAt<ReadingsOfText | null>(READ_TEXT_METHOD, uri, { line, character: 2 }, more);
  if (answer === null) throw new Error('no answer');
  return answer;
}

describe('text that is pasted', () => {
  test('tab without a rhythm has three readings, each with the same notes and a line to choose by', async () => {
    const lines = LANTERNS.split('\n');
    const { readings: found, counted, position } = await readings(LANTERNS, lines.length - 1, TAB);
    expect(found.map(({ label, preview }) => [label, preview])).toEqual([
      ['Distances on the line are time', '1 → 2:0   2 → 1:0   3 → 2:3   4 → 1:3'],
      ['All notes are equally long', '1 → 2:0   2 → 1:0   3 → 2:3   4 → 1:3'],
    ]);
    expect(counted).toMatchObject({ count: '1 & 2 & 3 & 4 &', preview: '1 → 2:0   2 → 1:0   3 → 2:3   4 → 1:3' });
    expect(found[0]?.text).toContain('melody  pasted-tune\n');
    expect(found[0]?.text).toContain('// A guess:');
    expect(position).toEqual({ line: lines.length - 1, character: 0 });
  });

  test('a given count is taken, and a slip in it is told', async () => {
    const given = await readings(LANTERNS, 0, TAB, '1 & 2 &');
    expect(given.readings).toHaveLength(1);
    const four = await readings(LANTERNS, 0, TAB, '1 2 & 4');
    expect(four.readings[0]?.preview).toBe('1 → 2:0   2 → 1:0   & → 2:3   4 → 1:3');
    expect(await readings(LANTERNS, 0, TAB, '1 7')).toMatchObject({
      readings: [],
      fault: expect.stringMatching(/no 7/),
    });
  });

  test('a text that says its rhythm has one reading, and one that is no music none', async () => {
    const { readings: found, counted } = await readings(LANTERNS, 0, COUNTED);
    expect(found).toHaveLength(1);
    expect(found[0]?.text).not.toContain('A guess');
    expect(counted).toBeUndefined();
    expect((await readings(LANTERNS, 0, 'See you on Tuesday')).readings).toEqual([]);
  });

  test('no statement is cut in two, no name comes twice, and line ends are the lesson’s', async () => {
    const lesson = 'lesson  x\r\n\r\nmelody  pasted-tune\r\n  count  1 2 3 4\r\n  tune   1:0 . . .\r\npart  Two\r\n';
    const { readings: found, position } = await readings(lesson, 3, COUNTED);
    expect(position).toEqual({ line: 5, character: 0 });
    expect(found[0]?.text).toBe(
      '\r\nmelody  pasted-tune-2\r\n  count  1    2    3    4\r\n  tune   2:0  1:0  2:3  1:3\r\n\r\n',
    );
  });

  test('selected text that the lesson makes nothing of is read in its place', async () => {
    const uri = 'file:///selected.lesson';
    const head = 'lesson  x\n\n';
    await editor.open(uri, `${head}${TAB}\npart  Two\n`);
    const actions = async (from: number, to: number): Promise<readonly CodeAction[]> => {
      const all = await editor.ask<CodeAction[]>('textDocument/codeAction', {
        textDocument: { uri },
        range: { start: { line: from, character: 0 }, end: { line: to, character: 0 } },
        context: { diagnostics: [], only: ['refactor.rewrite.readText'] },
      });
      return all;
    };
    const found = await actions(2, 6);
    expect(found.map(({ title }) => title)).toEqual([
      'Read this text as music: distances on the line are time',
      'Read this text as music: all notes are equally long',
    ]);
    const [edit] = (found[0]?.edit?.documentChanges ?? []) as TextDocumentEdit[];
    expect(edit?.edits).toEqual([
      {
        range: { start: { line: 2, character: 0 }, end: { line: 6, character: 0 } },
        newText: expect.stringContaining('  tune   2:0  1:0  2:3  1:3\n'),
      },
    ]);
    // Nothing is offered on lines of the lesson itself.
    expect(await actions(0, 1)).toEqual([]);
    expect(await actions(7, 8)).toEqual([]);
  });
});
