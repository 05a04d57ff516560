import { join } from 'node:path';
import { createConnection } from 'vscode-languageserver/node';
import { deskThread } from './hand-out/desk-threads.ts';
import { nodeTurns } from './node-turn.ts';
import { serve } from './serve.ts';

// `--node-ipc` and `--stdio` are read from the command line by the library. The command line's bundle lies beside this one.
serve(createConnection(), nodeTurns, () => deskThread(join(__dirname, 'handspan.js')));
