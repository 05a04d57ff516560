import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { serve } from './serve.ts';

declare const self: DedicatedWorkerGlobalScope;

// The library's own turns are timers of zero in a browser.
serve(createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self)), (work) => {
  setTimeout(() => setTimeout(work, 0), 0);
});
