// Loads the client as the editor's Node extension host would, with a stand-in for the editor, and lets it start the
// server over IPC. Prints one line of JSON: what went wrong, if anything, and how the server process was started.
import childProcess from 'node:child_process';
import { createRequire, Module } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..', '..');
/** @type {string[]} */
const faults = [];
/** @type {import('node:child_process').ChildProcess[]} */
const servers = [];

const fork = childProcess.fork;
childProcess.fork = /** @type {typeof fork} */ (
  (/** @type {Parameters<typeof fork>} */ ...args) => {
    const server = fork(...args);
    servers.push(server);
    return server;
  }
);

class EventEmitter {
  /** @type {Set<(value: unknown) => void>} */
  #listeners = new Set();
  event = (/** @type {(value: unknown) => void} */ listener) => {
    this.#listeners.add(listener);
    return { dispose: () => this.#listeners.delete(listener) };
  };
  fire(/** @type {unknown} */ value) {
    for (const listener of this.#listeners) listener(value);
  }
  dispose() {
    this.#listeners.clear();
  }
}

const editor = standIn({
  version: '1.91.1',
  EventEmitter,
  Uri: standIn({
    joinPath: (/** @type {{ fsPath: string }} */ base, /** @type {string[]} */ ...names) =>
      place(path.join(base.fsPath, ...names)),
  }),
  workspace: standIn({ textDocuments: [], notebookDocuments: [], workspaceFolders: undefined, isTrusted: true }),
  window: standIn({
    visibleTextEditors: [],
    activeTextEditor: undefined,
    tabGroups: standIn({ all: [] }),
    showErrorMessage: async (/** @type {string} */ message) => faults.push(message),
  }),
  env: standIn({ appName: 'stand-in', language: 'en', clipboard: standIn({}) }),
  extensions: standIn({ all: [] }),
});

const load = Reflect.get(Module, '_load');
Reflect.set(Module, '_load', (/** @type {string} */ name, /** @type {unknown[]} */ ...rest) =>
  name === 'vscode' ? editor : load(name, ...rest),
);

/** @type {{ dispose(): unknown }[]} */
const subscriptions = [];
const client = createRequire(import.meta.url)(path.join(root, 'dist', 'client.js'));
const { started } = client.activate({ extensionUri: place(root), subscriptions, extension: { packageJSON: {} } });
await started;
const [server] = servers;
const running = server !== undefined && server.exitCode === null && server.connected;
console.log(JSON.stringify({ faults, running, serverFile: path.relative(root, server?.spawnargs[1] ?? '') }));
for (const one of subscriptions) one.dispose();
if (server !== undefined && server.exitCode === null) await new Promise((resolve) => server.once('exit', resolve));

/** @param {string} fsPath */
function place(fsPath) {
  return { scheme: 'file', path: fsPath, fsPath, toString: () => `file://${fsPath}` };
}

/**
 * Has the named things, and for every other name something that can be called, constructed, extended and asked further.
 *
 * @param {Record<string, unknown>} known
 * @returns {any}
 */
function standIn(known) {
  class Anything {}
  return new Proxy(Anything, {
    get(target, name, receiver) {
      if (typeof name === 'string' && Object.hasOwn(known, name)) return known[name];
      if (name === 'prototype' || typeof name === 'symbol') return Reflect.get(target, name, receiver);
      // A promise would be waited for by whoever is handed this.
      if (name === 'then') return undefined;
      known[name] = standIn({});
      return known[name];
    },
    apply: () => standIn({}),
  });
}
