/** Where our own faults are written down. */
export interface Log {
  error(message: string): void;
}

/** What a piece of work was about, for the log. */
export interface About {
  readonly uri?: string;
  readonly version?: number;
}

/**
 * Runs one piece of work. An exception is a bug of ours: it is logged with the lesson and version it happened on, the
 * answer is `otherwise`, and everything else goes on.
 */
export function guarded<T>(log: Log, what: string, about: About, otherwise: T, work: () => T): T {
  try {
    return work();
  } catch (thrown) {
    const where = about.uri === undefined ? '' : ` on ${about.uri} version ${about.version ?? 'unknown'}`;
    const why = thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown);
    log.error(`${what}${where}: ${why}`);
    return otherwise;
  }
}
