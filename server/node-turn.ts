import type { Turns } from './turn.ts';

/** The library's own turns are immediates in Node. */
export const nodeTurns: Turns = {
  afterWaitingMessages: (work) => {
    setImmediate(() => setImmediate(work));
  },
  soon: (work) => {
    setImmediate(work);
  },
};
