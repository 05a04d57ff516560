import { parentPort } from 'node:worker_threads';
import { HandOutDesk } from './desk.ts';
import type { DeskAnswer, DeskQuestion } from './desk-messages.ts';
import { nodeDeskHost } from './node-desk-host.ts';

/** Answers questions from the main thread until that ends this one. `folder` is where the product's bundles lie. */
export function serveDesk(folder: string): void {
  const desk = new HandOutDesk(nodeDeskHost(folder));
  let last: Promise<void> = Promise.resolve();
  parentPort?.on('message', (question: DeskQuestion) => {
    // One after another: the writers keep things from one file to the next.
    last = last.then(async () => parentPort?.postMessage(await answered(desk, question)));
  });
}

async function answered(desk: HandOutDesk, question: DeskQuestion): Promise<DeskAnswer> {
  const { id, job } = question;
  try {
    if (question.ask === 'list') return { id, listed: desk.list(job) };
    return { id, made: (await desk.make(job, question.name)) ?? null };
  } catch (thrown) {
    return { id, fault: thrown instanceof Error ? thrown.message : String(thrown) };
  }
}
