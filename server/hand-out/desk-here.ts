import { type Desk, type DeskHost, HandOutDesk } from './desk.ts';

/** A desk in this thread, for hosts that have no other. One question is answered after another. */
export function deskHere(host: DeskHost): Desk {
  const desk = new HandOutDesk(host);
  let last: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => T | Promise<T>): Promise<T> => {
    const answer = last.then(work);
    last = answer.catch(() => undefined);
    return answer;
  };
  return {
    list: (job) => inTurn(() => desk.list(job)),
    make: (job, name) => inTurn(() => desk.make(job, name)),
    end: async () => undefined,
  };
}
