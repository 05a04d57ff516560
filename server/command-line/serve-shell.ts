import { createConnection } from 'vscode-languageserver/node';
import { deskThread } from '../hand-out/desk-threads.ts';
import { nodeTurns } from '../node-turn.ts';
import { serve } from '../serve.ts';

/** The language server over standard input and output. */
export function serveShell(): void {
  serve(createConnection(process.stdin, process.stdout), nodeTurns, () => deskThread(__dirname));
}
