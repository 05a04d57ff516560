import { openDocument } from '../../shared/lesson/document.ts';
import { formatDocument } from '../../shared/lesson/format.ts';
import type { TextEdit } from '../../shared/text/span.ts';
import { readLesson, reasonOf, replaceLesson, STANDARD_INPUT } from './lesson-file.ts';
import { readWords } from './read-words.ts';
import { type Command, type ExitCode, UsageError } from './terminal.ts';

export const format: Command = {
  usage: 'handspan format FILE… [--check]',
  summary: 'align the columns of lessons',
  details: `Rewrites each FILE whose layout changes and prints its name. Line ends stay as they are.
  --check   change nothing; print the names of the files that would change
Exit status: 0 done, or nothing to change; 1 with --check, when files would change; 2 wrong call or unusable file.`,

  async run(words, terminal) {
    const { values, positionals } = readWords(words, { check: { type: 'boolean' } });
    if (positionals.length === 0) throw new UsageError('name at least one lesson');
    if (positionals.includes(STANDARD_INPUT)) throw new UsageError('standard input cannot be formatted in place');
    let result: ExitCode = 0;
    for (const path of positionals) {
      const read = await readLesson(path);
      if (!read.ok) {
        terminal.complain(read.sentence);
        result = 2;
        continue;
      }
      const formatted = formattedText(read.file.text);
      if (formatted === read.file.text) continue;
      terminal.out(`${path}\n`);
      if (values.check === true) {
        if (result === 0) result = 1;
        continue;
      }
      try {
        await replaceLesson(read.file, formatted);
      } catch (thrown) {
        terminal.complain(`${path}: ${reasonOf(thrown)}`);
        result = 2;
      }
    }
    return result;
  },
};

/** The text laid out well; line breaks that come in are of the text's own kind. */
export function formattedText(text: string): string {
  const lineEnd = /\r\n?|\n/.exec(text)?.[0] ?? '\n';
  const edits = [...formatDocument(openDocument(text))].sort((one, other) => one.span.start - other.span.start);
  // From the end on, so that the spans of the edits before it still count right.
  return edits.reduceRight((result, edit) => applied(result, edit, lineEnd), text);
}

function applied(text: string, { span, text: insert }: TextEdit, lineEnd: string): string {
  return text.slice(0, span.start) + insert.replaceAll(/\r\n?|\n/g, lineEnd) + text.slice(span.end);
}
