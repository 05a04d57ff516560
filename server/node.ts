import { createConnection } from 'vscode-languageserver/node';
import { deskThread } from './hand-out/desk-threads.ts';
import { nodeTurns } from './node-turn.ts';
import { serve } from './serve.ts';

// `--node-ipc` and `--stdio` are read from the command line by the library.
serve(createConnection(), nodeTurns, () => deskThread(__dirname));
