import type { AfterWaitingMessages } from './turn.ts';

/** The library's own turns are immediates in Node. */
export const afterWaitingMessages: AfterWaitingMessages = (work) => {
  setImmediate(() => setImmediate(work));
};
