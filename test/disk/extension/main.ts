import * as vscode from 'vscode';
import { type DiskAddress, diskCalls } from './disk-calls.ts';

const CHANGE_TYPES = {
  created: vscode.FileChangeType.Created,
  changed: vscode.FileChangeType.Changed,
  deleted: vscode.FileChangeType.Deleted,
} as const;

export function activate(context: vscode.ExtensionContext): void {
  const server = context.extension.packageJSON.diskServer as DiskAddress & { readonly scheme: string };
  const calls = diskCalls(server);
  const changed = new vscode.EventEmitter<vscode.FileChangeEvent[]>();
  const stop = new AbortController();

  const provider: vscode.FileSystemProvider = {
    onDidChangeFile: changed.event,
    // The server watches the whole folder from its start, so a single wish adds nothing.
    watch: () => new vscode.Disposable(() => undefined),
    stat: (uri) => calls.json<vscode.FileStat>('GET', 'stat', { path: uri.path }),
    readDirectory: (uri) => calls.json<[string, vscode.FileType][]>('GET', 'list', { path: uri.path }),
    readFile: (uri) => calls.bytes('GET', 'file', { path: uri.path }),
    writeFile: (uri, content, options) =>
      calls.done('PUT', 'file', { path: uri.path, create: options.create, overwrite: options.overwrite }, content),
    createDirectory: (uri) => calls.done('POST', 'folder', { path: uri.path }),
    delete: (uri, options) => calls.done('DELETE', 'entry', { path: uri.path, recursive: options.recursive }),
    rename: (from, to, options) =>
      calls.done('POST', 'move', { from: from.path, path: to.path, overwrite: options.overwrite }),
  };

  context.subscriptions.push(
    changed,
    new vscode.Disposable(() => stop.abort()),
    vscode.workspace.registerFileSystemProvider(server.scheme, provider, { isCaseSensitive: true }),
  );
  void calls.followChanges(stop.signal, (changes) => {
    changed.fire(
      changes.map(({ kind, path }) => ({
        type: CHANGE_TYPES[kind],
        uri: vscode.Uri.from({ scheme: server.scheme, path }),
      })),
    );
  });
}
