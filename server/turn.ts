/**
 * Gives the event loop a turn, then goes on: messages already handed over leave, and messages that wait come in. It is
 * passed in by the entry point, since Node and a browser's worker have different ways that take no waiting time.
 */
export type TakeTurn = (work: () => void) => void;
