import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { deskHere } from './hand-out/desk-here.ts';
import { workerDeskHost } from './hand-out/worker-desk-host.ts';
import { serve } from './serve.ts';
import type { Turns } from './turn.ts';

declare const self: DedicatedWorkerGlobalScope;

const channel = new MessageChannel();
const waiting: (() => void)[] = [];
channel.port1.onmessage = () => waiting.shift()?.();

const turns: Turns = {
  // The library's own turns are timers of zero in a browser.
  afterWaitingMessages: (work) => {
    setTimeout(() => setTimeout(work, 0), 0);
  },
  // Browsers make timers that follow each other wait; messages come at once, and let others in between.
  soon: (work) => {
    waiting.push(work);
    channel.port2.postMessage(undefined);
  },
};

serve(createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self)), turns, (assets) =>
  deskHere(workerDeskHost(assets ?? '', (script) => importScripts(script))),
);
