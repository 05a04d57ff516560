import { readWords } from './read-words.ts';
import { type Command, UsageError } from './terminal.ts';

export const serve: Command = {
  usage: 'handspan serve --stdio',
  summary: 'run the language server for an editor',
  details: `Speaks the Language Server Protocol over standard input and output until the editor ends it.`,

  async run(words) {
    const { values, positionals } = readWords(words, {
      stdio: { type: 'boolean' },
      // Some editors add this by themselves: the number of their process, which the protocol library reads.
      clientProcessId: { type: 'string' },
    });
    if (positionals.length > 0) throw new UsageError(`${positionals[0]} is not expected here`);
    if (values.stdio !== true) throw new UsageError('say --stdio: it is the only way in and out');
    // What speaks the protocol is large, and no other command needs it.
    const { serveShell } = await import('./serve-shell.ts');
    serveShell();
    return undefined;
  },
};
