/** Where a command writes to and what the shell is told when it is done. */
export interface Terminal {
  /** Results, for a person or the next program. */
  out(text: string): void;
  /** One line about what went wrong. */
  complain(sentence: string): void;
}

/** What the shell is told: 0 all well, 1 there is something to mend, 2 the call itself was wrong or a file unreadable. */
export type ExitCode = 0 | 1 | 2;

/** A call that does not make sense; `message` is one line for the person who made it. */
export class UsageError extends Error {}

export interface Command {
  readonly usage: string;
  /** One line for the list of commands. */
  readonly summary: string;
  /** What `--help` shows below the usage. */
  readonly details: string;
  /** Throws a `UsageError` for a call that makes no sense. `undefined` while it goes on serving. */
  run(words: readonly string[], terminal: Terminal): Promise<ExitCode | undefined>;
}
