import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { type Handspan, register } from './extension.ts';

export function activate(context: ExtensionContext): Handspan {
  const address = Uri.joinPath(context.extensionUri, 'dist', 'server.worker.js').toString(true);
  let worker: Worker | undefined;
  // A function and not a worker, so that a restarted service gets a fresh worker and the old one ends.
  const server = async (): Promise<Worker> => {
    worker?.terminate();
    worker = new Worker(address);
    return worker;
  };
  context.subscriptions.push({ dispose: () => worker?.terminate() });
  return register(context, (options) => new LanguageClient('handspan', 'Handspan', server, options));
}
