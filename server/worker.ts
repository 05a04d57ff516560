import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { serve } from './serve.ts';
import type { TakeTurn } from './turn.ts';

declare const self: DedicatedWorkerGlobalScope;

/** A turn by message channel: browsers hold nested timers of zero back to four milliseconds. */
function channelTurn(): TakeTurn {
  const { port1, port2 } = new MessageChannel();
  const waiting: (() => void)[] = [];
  port1.onmessage = () => waiting.shift()?.();
  return (work) => {
    waiting.push(work);
    port2.postMessage(undefined);
  };
}

serve(createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self)), channelTurn());
