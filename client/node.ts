import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { type Handspan, register } from './extension.ts';

export function activate(context: ExtensionContext): Handspan {
  const module = Uri.joinPath(context.extensionUri, 'dist', 'server.js').fsPath;
  const server = { module, transport: TransportKind.ipc };
  return register(context, (options) => new LanguageClient('handspan', 'Handspan', server, options));
}
