import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Desk } from './desk.ts';
import type { DeskAnswer, DeskQuestion } from './desk-messages.ts';

/** A desk in a thread of its own. `folder` is where the product's bundles lie. */
export function deskThread(folder: string): Desk {
  const worker = new Worker(join(folder, 'desk.js'));
  const waiting = new Map<number, { resolve(answer: DeskAnswer): void; reject(reason: Error): void }>();
  let asked = 0;
  const fail = (reason: Error): void => {
    for (const { reject } of waiting.values()) reject(reason);
    waiting.clear();
  };
  worker.on('message', (answer: DeskAnswer) => {
    waiting.get(answer.id)?.resolve(answer);
    waiting.delete(answer.id);
  });
  worker.on('error', fail);
  worker.on('exit', () => fail(new Error('The thread that writes files has ended.')));
  // Its questions keep the process alive, not the thread itself.
  worker.unref();
  const ask = async (question: DistributiveOmit<DeskQuestion, 'id'>): Promise<DeskAnswer> => {
    const id = ++asked;
    const keepAlive = setInterval(() => undefined, 60_000);
    try {
      const answer = await new Promise<DeskAnswer>((resolve, reject) => {
        waiting.set(id, { resolve, reject });
        worker.postMessage({ ...question, id });
      });
      if ('fault' in answer) throw new Error(answer.fault);
      return answer;
    } finally {
      clearInterval(keepAlive);
    }
  };
  return {
    list: async (job) => {
      const answer = await ask({ ask: 'list', job });
      if (!('listed' in answer)) throw new Error('The thread that writes files gave another answer.');
      return answer.listed;
    },
    make: async (job, name) => {
      const answer = await ask({ ask: 'make', job, name });
      return 'made' in answer ? (answer.made ?? undefined) : undefined;
    },
    end: async () => {
      await worker.terminate();
    },
  };
}

type DistributiveOmit<T, K extends PropertyKey> = T extends unknown ? Omit<T, K> : never;
