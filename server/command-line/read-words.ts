import { type ParseArgsConfig, parseArgs } from 'node:util';
import { UsageError } from './terminal.ts';

/** The options and other words of a call; a `UsageError` in plain words for an option that does not exist or lacks its value. */
export function readWords<T extends NonNullable<ParseArgsConfig['options']>>(words: readonly string[], options: T) {
  try {
    return parseArgs({ args: [...words], options, allowPositionals: true, strict: true });
  } catch (thrown) {
    if (!(thrown instanceof TypeError)) throw thrown;
    // The library explains at length; its first sentence says which option it is about.
    throw new UsageError(thrown.message.split(/[.\n]/, 1)[0]?.replaceAll("'", '') ?? 'the options make no sense');
  }
}
