import { parentPort } from 'node:worker_threads';
import { HandOutDesk } from './desk.ts';
import type { DeskAnswer, DeskQuestion } from './desk-messages.ts';
import { nodeDeskHost } from './node-desk-host.ts';

// A desk as a thread: it answers questions from the main thread until that ends this one. The product's bundles lie beside it.
const desk = new HandOutDesk(nodeDeskHost(__dirname));
let last: Promise<void> = Promise.resolve();
parentPort?.on('message', (question: DeskQuestion) => {
  // One after another: the writers keep things from one file to the next.
  last = last.then(async () => parentPort?.postMessage(await answered(question)));
});

async function answered(question: DeskQuestion): Promise<DeskAnswer> {
  const { id, job } = question;
  try {
    if (question.ask === 'list') return { id, listed: desk.list(job) };
    return { id, made: (await desk.make(job, question.name)) ?? null };
  } catch (thrown) {
    return { id, fault: thrown instanceof Error ? thrown.message : String(thrown) };
  }
}
