/**
 * Does the work after the messages that wait at the door have come in: a newer text among them makes it needless. It is
 * passed in by the entry point, since Node and a browser's worker have different ways.
 *
 * The protocol library takes one waiting message a turn, and queues the next one when it has handled one. So the work lets
 * two turns pass: the first may come before the library's, the second comes after it.
 */
export type AfterWaitingMessages = (work: () => void) => void;

/** Does the work as soon as a message that waits has had its turn: for long work that is done in slices. */
export type Soon = (work: () => void) => void;

/** Both ways to let messages in, as the entry point knows them. */
export interface Turns {
  readonly afterWaitingMessages: AfterWaitingMessages;
  readonly soon: Soon;
}
