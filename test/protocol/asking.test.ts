import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CodeAction, CodeLens, TextEdit, WorkspaceEdit } from 'vscode-languageserver/node';
import { PERFORMANCE_METHOD, type PerformanceAnswer } from '../../server/protocol/playing.ts';
import { PREVIEW_METHOD, type SheetUpdate, type WireBlock, type WriteAnswer } from '../../server/protocol/preview.ts';
import { LessonEditor } from './lesson-editor.ts';
import { shownAfterAll } from './shown-sheet.ts';

const VIEW = { widthMm: 180, leftHanded: false };

const ASKING = `lesson  Four Windows
for     tenor ukulele, high G
key     D major
tempo   60

progression  verse
  | D | A | Bm | G |

family  walk
  from   verse
  ring   1
  allow  add9 6 7 maj7

melody  lights
  inside  verse
  arch
`;

let editor: LessonEditor;
let lessons = 0;
beforeAll(async () => {
  ({ editor } = await LessonEditor.start(undefined, undefined, { showsSheets: true }));
});
afterAll(() => editor.kill());

async function opened(text = ASKING): Promise<string> {
  lessons += 1;
  const uri = `file:///term/asking-${lessons}.lesson`;
  await editor.open(uri, text);
  return uri;
}

function lineOf(piece: string): number {
  return ASKING.slice(0, ASKING.indexOf(piece)).split('\n').length - 1;
}

/** The blocks of a sheet once all that it asks is answered, and its revision. */
async function answered(id: string): Promise<{ readonly revision: number; readonly blocks: readonly WireBlock[] }> {
  for (let number = 1; ; number += 1) {
    await editor.updateNumber(id, number);
    const updates: readonly SheetUpdate[] = editor.updatesSoFar(id).slice(0, number);
    const shown = shownAfterAll(updates);
    if (shown === undefined) throw new Error('the updates do not fit each other');
    if (!shown.blocks.some(({ markup }) => markup.includes('Looking for'))) return shown;
  }
}

function applied(text: string, edits: readonly Pick<TextEdit, 'range' | 'newText'>[]): string {
  const starts = [0, ...[...text.matchAll(/\n/g)].map(({ index }) => index + 1)];
  const offset = ({ line, character }: { line: number; character: number }) =>
    (starts[line] ?? text.length) + character;
  return [...edits]
    .sort((a, b) => offset(b.range.start) - offset(a.range.start))
    .reduce(
      (done, { range, newText }) => done.slice(0, offset(range.start)) + newText + done.slice(offset(range.end)),
      text,
    );
}

function editsOf(edit: WorkspaceEdit | undefined): readonly TextEdit[] {
  const [change] = edit?.documentChanges ?? [];
  return change !== undefined && 'edits' in change ? (change.edits as TextEdit[]) : [];
}

async function actionsAt(uri: string, piece: string, only = ['refactor.rewrite']): Promise<readonly CodeAction[]> {
  const position = { line: lineOf(piece), character: 2 };
  return editor.ask('textDocument/codeAction', {
    textDocument: { uri },
    range: { start: position, end: position },
    context: { diagnostics: [], only },
  });
}

describe('the sheet of a lesson that asks', () => {
  test('comes at once, and what was found follows', async () => {
    const uri = await opened();
    await editor.subscribe({ id: 'first', uri, view: VIEW });
    const first = await editor.updateNumber('first', 1);
    if (first.kind !== 'full') throw new Error('the first sheet is whole');
    const shown = await answered('first');
    const kinds = shown.blocks.map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === 'question')).toHaveLength(2);
    const families = shown.blocks.filter(({ markup }) => markup.includes('aria-label="Family '));
    expect(families).toHaveLength(4);
    for (const [at, { markup }] of families.entries()) {
      expect(markup).toContain(`data-write="${at}"`);
      expect(markup).toMatch(/<button type="button"[^>]* aria-label="Write these shapes\. Family \d of 4: /);
      expect(markup.match(/role="img"/g)?.length).toBeGreaterThanOrEqual(4);
    }
    expect(shown.blocks.some(({ markup }) => markup.includes('Warm up first'))).toBe(true);
    // A second sheet of the same questions has its answers in its first update.
    const other = await opened();
    await editor.subscribe({ id: 'second', uri: other, view: VIEW });
    const again = await editor.updateNumber('second', 1);
    expect(JSON.stringify(again)).not.toContain('Looking for');
  });

  test('an edit elsewhere leaves what was found alone', async () => {
    const uri = await opened();
    await editor.subscribe({ id: 'kept', uri, view: VIEW });
    const { revision } = await answered('kept');
    await editor.change(uri, 2, [
      { range: { start: { line: 0, character: 8 }, end: { line: 0, character: 12 } }, text: 'Five' },
    ]);
    const next = await editor.updateNumber('kept', revision + 1);
    if (next.kind !== 'patch') throw new Error('a title came with all of the sheet');
    expect(next.operations.filter(({ kind }) => kind !== 'keep')).toHaveLength(1);
  });

  test('pages leave the questions out', async () => {
    const uri = await opened();
    const page = { paper: 'a4', print: 'normal' } as const;
    await editor.subscribe({ id: 'pages', uri, view: { ...VIEW, page } });
    const update = await editor.updateNumber('pages', 1);
    expect(JSON.stringify(update)).not.toMatch(/Looking for|shapes that look alike|walk|lights/);
  });

  test('what was found can be heard, and only what is shown now', async () => {
    const uri = await opened();
    await editor.subscribe({ id: 'heard', uri, view: VIEW });
    const { revision, blocks } = await answered('heard');
    const slotOf = (piece: string) => blocks.findIndex(({ markup }) => markup.includes(piece));
    const family = { kind: 'candidate', id: 'heard', revision, slot: slotOf('Family 2 of 4'), place: 1 };
    const ask = (question: object) => editor.ask<PerformanceAnswer>(PERFORMANCE_METHOD, { ...family, ...question });
    const answer = await ask({});
    if (answer.kind !== 'found') throw new Error(`the answer is ${answer.kind}`);
    const { performance } = answer;
    expect(performance.title).toBe('walk, candidate 2 of 4');
    expect(performance.bars).toHaveLength(4);
    // String 1 rings open in every shape: A4. Source: the tuning of a tenor ukulele.
    for (const bar of [0, 1, 2, 3]) {
      expect(performance.sounds.some((sound) => sound.bar === bar && sound.string === 1 && sound.midi === 69)).toBe(
        true,
      );
    }
    const tune = await ask({ slot: slotOf('Tune 1 of'), place: 0 });
    expect(tune).toMatchObject({ kind: 'found', performance: { hasTune: true } });
    expect(await ask({ place: 9 })).toEqual({ kind: 'unknown' });
    expect(await ask({ kind: 'title' })).toEqual({ kind: 'unknown' });
    expect(await ask({ slot: 0 })).toEqual({ kind: 'outdated' });
    expect(await ask({ revision: revision + 1 })).toEqual({ kind: 'outdated' });
    await editor.change(uri, 2, [
      { range: { start: { line: 0, character: 8 }, end: { line: 0, character: 12 } }, text: 'Five' },
    ]);
    await editor.updateTo('heard', 2);
    expect(await ask({})).toEqual({ kind: 'outdated' });
  });

  test('what is chosen is answered with edits for the version that was shown', async () => {
    const uri = await opened();
    await editor.subscribe({ id: 'chosen', uri, view: VIEW });
    const { revision, blocks } = await answered('chosen');
    const slot = blocks.findIndex(({ markup }) => markup.includes('Family 2 of 4'));
    const ask = (question: object) =>
      editor.ask<WriteAnswer>(PREVIEW_METHOD.write, { id: 'chosen', revision, slot, choice: 1, ...question });
    const answer = await ask({});
    if (answer.kind !== 'edits') throw new Error(`the answer is ${answer.kind}`);
    expect(answer).toMatchObject({ uri, version: 1 });
    const text = applied(ASKING, answer.edits);
    expect(text).toMatch(/^\/\/ family {2}walk$/m);
    expect(text).toMatch(/^progression {2}walk$/m);
    expect(await ask({ choice: 9 })).toEqual({ kind: 'outdated' });
    expect(await ask({ slot: 0 })).toEqual({ kind: 'outdated' });
    expect(await ask({ revision: revision + 7 })).toEqual({ kind: 'outdated' });
    expect(await ask({ id: 'nobody' })).toEqual({ kind: 'unknown' });
    expect(await ask({ choice: 'best' })).toEqual({ kind: 'unknown' });
    await editor.change(uri, 2, [{ text: ASKING.replace('ring   1', 'ring   2') }]);
    expect(await ask({})).toEqual({ kind: 'outdated' });
  });

  test('says which wish is to blame where nothing is found', async () => {
    const uri = await opened(ASKING.replace('  allow  add9 6 7 maj7\n', ''));
    await editor.subscribe({ id: 'none', uri, view: VIEW });
    const { blocks } = await answered('none');
    const question = blocks.find(({ kind, markup }) => kind === 'question' && markup.includes('walk'));
    // A is no tone of G. Source: the major triad is root, third and fifth: G B D.
    expect(question?.markup).toContain('String 1 sounds A, which is no tone of G');
    expect(question?.markup).toContain('With add9 allowed there would be');
  });

  test('typing goes on while something long is looked for', async () => {
    const many = ASKING.replace(
      '| D | A | Bm | G |',
      '| D | A | Bm | G | Em | C | F | Am | Dm | Bb | Gm | Cm |',
    ).replace('  ring   1\n', '');
    const uri = await opened(many);
    await editor.subscribe({ id: 'typed', uri, view: VIEW });
    await editor.updateNumber('typed', 1);
    await editor.change(uri, 2, [
      { range: { start: { line: 0, character: 8 }, end: { line: 0, character: 12 } }, text: 'Five' },
    ]);
    const update = await editor.updateTo('typed', 2);
    // The title came before the shapes were found.
    expect(update).toMatchObject({ version: 2, revision: 2 });
    const { blocks } = await answered('typed');
    expect(blocks.filter(({ markup }) => markup.includes('aria-label="Family ')).length).toBeGreaterThan(0);
  });
});

describe('over a question', () => {
  test('lenses write the best answer and show all of them', async () => {
    const uri = await opened();
    const lenses = await editor.ask<CodeLens[]>('textDocument/codeLens', { textDocument: { uri } });
    expect(lenses.map(({ range, command }) => `${range.start.line} ${command?.title}`)).toEqual([
      `${lineOf('family')} Write the best family`,
      `${lineOf('family')} Show them side by side`,
      `${lineOf('melody')} Write the best tune`,
      `${lineOf('melody')} Show them side by side`,
    ]);
  });

  test('an editor that makes no edits for the server is offered none', async () => {
    const { editor: bare } = await LessonEditor.start({});
    await bare.open('file:///bare.lesson', ASKING);
    expect(await bare.ask('textDocument/codeLens', { textDocument: { uri: 'file:///bare.lesson' } })).toEqual([]);
    await bare.kill();
  });

  test('an editor without sheets is offered what works there; half-typed questions have no lens', async () => {
    const { editor: plain } = await LessonEditor.start();
    await plain.open('file:///plain.lesson', `${ASKING}\nfamily half\n  from\n`);
    const lenses = await plain.ask<CodeLens[]>('textDocument/codeLens', {
      textDocument: { uri: 'file:///plain.lesson' },
    });
    expect(lenses.map(({ command }) => command?.title)).toEqual(['Write the best family', 'Write the best tune']);
    await plain.kill();
  });

  test('the command of the lens has the editor apply one edit', async () => {
    const uri = await opened();
    const edits = new Promise<WorkspaceEdit>((resolve) => {
      editor.connection.onRequest('workspace/applyEdit', ({ edit }: { edit: WorkspaceEdit }) => {
        resolve(edit);
        return { applied: true };
      });
    });
    await editor.ask('workspace/executeCommand', {
      command: 'handspan.writeBest',
      arguments: [{ uri, line: lineOf('melody') }],
    });
    const text = applied(ASKING, editsOf(await edits));
    expect(text).toMatch(/^\/\/ melody {2}lights$/m);
    expect(text).toMatch(/^melody {2}lights\n {2}count/m);
  });
});

describe('actions', () => {
  test('each answer is an action that says why', async () => {
    const uri = await opened();
    const actions = await actionsAt(uri, 'family');
    expect(actions.map(({ kind }) => kind)).toEqual(Array.from({ length: 4 }, () => 'refactor.rewrite.family'));
    expect(actions.map(({ title }) => title.replace(/: .+$/, ': …'))).toEqual(
      [1, 2, 3, 4].map((number) => `Write family ${number} of 4: …`),
    );
    for (const { edit } of actions) expect(applied(ASKING, editsOf(edit))).toMatch(/^progression {2}walk$/m);
    const tunes = await actionsAt(uri, 'melody');
    expect(tunes.length).toBeGreaterThan(0);
    for (const { kind, title } of tunes) {
      expect(kind).toBe('refactor.rewrite.tune');
      expect(title).toMatch(/^Write tune \d of \d: rises from \S+ to \S+ and comes back/);
    }
    expect(await actionsAt(uri, 'family', ['quickfix'])).toEqual([]);
  });

  test('a progression can be asked about', async () => {
    const uri = await opened();
    const actions = (await actionsAt(uri, 'progression')).filter(({ kind }) => kind?.includes('askFor'));
    expect(actions.map(({ title }) => title)).toEqual([
      'Ask for a family of these chords',
      'Ask for a tune inside these shapes',
    ]);
    expect(applied(ASKING, editsOf(actions[0]?.edit))).toMatch(/^family {2}walk-2\n {2}from {4}verse\n {2}ring {4}1$/m);
    expect(applied(ASKING, editsOf(actions[1]?.edit))).toMatch(/^melody {2}verse-tune\n {2}inside {2}verse$/m);
  });
});
