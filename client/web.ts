import { type ExtensionContext, Uri } from 'vscode';
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
  type MessageTransports,
} from 'vscode-languageclient/browser';
import { type Handspan, register } from './extension.ts';

export function activate(context: ExtensionContext): Handspan {
  const address = Uri.joinPath(context.extensionUri, 'dist', 'server.worker.js').toString(true);
  let worker: Worker | undefined;
  // A function and not a worker, so that a restarted service gets a fresh worker and the old one ends.
  // Reader and writer are made here, since the editor puts a function of its own in the place of `Worker`, and the library
  // asks whether what it got is an instance of that.
  const server = async (): Promise<MessageTransports> => {
    worker?.terminate();
    worker = new Worker(address);
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };
  context.subscriptions.push({ dispose: () => worker?.terminate() });
  return register(context, (options) => new LanguageClient('handspan', 'Handspan', server, options));
}
