import { fork, spawn } from 'node:child_process';
import { once } from 'node:events';
import { afterEach, describe, expect, test } from 'vitest';
import { createProtocolConnection, IPCMessageReader, IPCMessageWriter } from 'vscode-languageserver/node';
import { LessonEditor, SERVER } from './lesson-editor.ts';
import { LANTERNS } from './lesson-samples.ts';
import { shownAfterAll } from './shown-sheet.ts';

const URI = 'untitled:Lanterns.lesson';
const VIEW = { widthMm: 180, leftHanded: false };

const editors: LessonEditor[] = [];
afterEach(async () => {
  await Promise.all(editors.splice(0).map((editor) => editor.kill()));
});

async function started(...how: Parameters<typeof LessonEditor.start>) {
  const result = await LessonEditor.start(...how);
  editors.push(result.editor);
  return result;
}

describe('the life of the server', () => {
  test('it says what it can do, with incremental texts and the columns of UTF-16', async () => {
    const { greeting } = await started();
    expect(greeting.serverInfo?.name).toBe('handspan');
    expect(greeting.capabilities).toMatchObject({
      positionEncoding: 'utf-16',
      textDocumentSync: { openClose: true, change: 2 },
      completionProvider: { resolveProvider: true, triggerCharacters: [' ', '|', ':', '@', '-', '('] },
      renameProvider: { prepareProvider: true },
    });
  });

  test('an opened lesson gets its problems, which name the version', async () => {
    const { editor } = await started();
    await editor.open(URI, LANTERNS, 7);
    expect(await editor.diagnosticsOf(URI, 7)).toMatchObject({ uri: URI, version: 7 });
  });

  test('shutdown and exit end the process with 0, exit alone with 1', async () => {
    const { editor } = await LessonEditor.start();
    expect(await editor.stop()).toBe(0);
    const { editor: other } = await LessonEditor.start();
    const ended = once(other.server, 'exit');
    await other.tell('exit', undefined);
    expect(await ended).toEqual([1, null]);
  });

  test('it ends when its input ends', async () => {
    const server = spawn(process.execPath, [SERVER, '--stdio'], { stdio: ['pipe', 'ignore', 'inherit'] });
    server.stdin.end();
    expect(await once(server, 'exit')).toEqual([1, null]);
  });

  test('the command line serves the same', async () => {
    const { editor, greeting } = await started(undefined, [
      SERVER.replace(/server\.js$/, 'handspan.js'),
      'serve',
      '--stdio',
    ]);
    expect(greeting.serverInfo?.name).toBe('handspan');
    await editor.open(URI, LANTERNS);
    expect(await editor.diagnosticsOf(URI, 1)).toMatchObject({ version: 1 });
  });

  test('it speaks to the editor’s own process too, as it is started there', async () => {
    const server = fork(SERVER, ['--node-ipc'], { stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
    const connection = createProtocolConnection(new IPCMessageReader(server), new IPCMessageWriter(server));
    connection.listen();
    const params = { processId: process.pid, rootUri: null, capabilities: {} };
    expect(await connection.sendRequest('initialize', params)).toMatchObject({ serverInfo: { name: 'handspan' } });
    const ended = once(server, 'exit');
    await connection.sendRequest('shutdown');
    await connection.sendNotification('exit');
    expect(await ended).toEqual([0, null]);
    connection.dispose();
  });

  test('a server that was killed is replaced by a fresh one, and the editor hands over all that is needed', async () => {
    const { editor: first } = await started();
    await first.open(URI, LANTERNS);
    await first.subscribe({ id: 'sheet', uri: URI, view: VIEW });
    const before = await first.updateTo('sheet', 1);
    const problemsBefore = await first.diagnosticsOf(URI, 1);
    await first.kill();

    const { editor: second } = await started();
    // The panel may ask before the lesson is handed over; its page still holds a revision of the old server.
    await second.subscribe({ id: 'sheet', uri: URI, view: VIEW, holds: before.revision });
    await second.open(URI, LANTERNS);
    const after = await second.updateTo('sheet', 1);
    expect(after.kind).toBe('full');
    expect(shownAfterAll([after])?.blocks).toEqual(shownAfterAll([before])?.blocks);
    expect((await second.diagnosticsOf(URI, 1)).diagnostics).toEqual(problemsBefore.diagnostics);
  });
});

describe('messages that are not what they should be', () => {
  const QUESTIONS = [
    'hover',
    'completion',
    'definition',
    'references',
    'documentHighlight',
    'prepareRename',
    'documentSymbol',
    'foldingRange',
    'formatting',
    'inlayHint',
    'codeAction',
  ];

  test.each(QUESTIONS)('a question about a lesson that is not open has no answer: %s', async (question) => {
    const { editor } = await started();
    const place = {
      position: { line: 0, character: 0 },
      range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
    };
    const params = { textDocument: { uri: 'file:///nowhere.lesson' }, ...place, context: { diagnostics: [] } };
    expect(await editor.ask(`textDocument/${question}`, params)).toBeNull();
  });

  test('they are noted or refused, and the server goes on', async () => {
    const { editor } = await started();
    const nonsense: readonly [string, unknown][] = [
      ['textDocument/didChange', { textDocument: { uri: URI, version: 2 }, contentChanges: [{ text: 'x' }] }],
      ['textDocument/didChange', { textDocument: { uri: URI, version: 2 } }],
      ['textDocument/didOpen', { textDocument: null }],
      ['textDocument/didOpen', {}],
      ['textDocument/didClose', { textDocument: { uri: 'file:///never-opened.lesson' } }],
      ['handspan/preview/subscribe', { id: 3 }],
      ['handspan/preview/subscribe', undefined],
      ['handspan/preview/unsubscribe', { id: 'nobody' }],
      ['handspan/of-another-day', { any: 'thing' }],
    ];
    for (const [method, params] of nonsense) await editor.tell(method, params);
    await editor.ask('textDocument/hover', { position: 'here' }).catch(() => undefined);
    await editor.ask('handspan/preview/source', [1, 2]).then((answer) => expect(answer).toEqual({ kind: 'unknown' }));
    await editor.ask('handspan/preview/locate', null).then((answer) => expect(answer).toEqual({ kind: 'unknown' }));
    await expect(editor.ask('handspan/no-such-question', {})).rejects.toThrow();

    // Refused messages are told in the log by name; faults of ours with the lesson they happened on.
    await editor.logged('handspan/preview/subscribe: the message does not say what it must');

    await editor.open(URI, LANTERNS, 3);
    await editor.change(URI, 4, [
      { range: { start: { line: 900, character: 900 }, end: { line: 901, character: 0 } }, text: '\n' },
    ]);
    await editor.change(URI, 5, [
      { range: { start: { line: 3, character: 5 }, end: { line: 2, character: 0 } }, text: '' },
    ]);
    expect(await editor.diagnosticsOf(URI, 5)).toMatchObject({ version: 5 });
  });

  test('bytes that are no JSON are survived', async () => {
    const { editor } = await started();
    const body = '{"jsonrpc": "2.0", "method":';
    editor.server.stdin?.write(`Content-Length: ${body.length}\r\n\r\n${body}`);
    await editor.open(URI, LANTERNS, 1);
    expect(await editor.diagnosticsOf(URI, 1)).toMatchObject({ version: 1 });
  });
});
