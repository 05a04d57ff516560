import { CAUTION_IN_SHORT, CAUTION_ON_STRETCH } from '../../shared/hand/reach.ts';
import { type Finding, findingsIn, printFinding } from '../findings.ts';
import { readLesson } from './lesson-file.ts';
import { readWords } from './read-words.ts';
import { type Command, UsageError } from './terminal.ts';

export const check: Command = {
  usage: 'handspan check FILE… [--json]',
  summary: 'say what is wrong in lessons',
  details: `Each FILE is a lesson; - reads one from standard input.
  --json   print an array of {file, line, column, endLine, endColumn, severity, code, message, fixes, edition}
           (edition: the further edition that it is about, where it is one)
Exit status: 0 no errors (there may be warnings), 1 errors, 2 wrong call or unreadable file.`,

  async run(words, terminal) {
    const { values, positionals } = readWords(words, { json: { type: 'boolean' } });
    if (positionals.length === 0) throw new UsageError('name at least one lesson, or - for standard input');
    const findings: Finding[] = [];
    let allReadable = true;
    for (const path of positionals) {
      const read = await readLesson(path);
      if (read.ok) {
        findings.push(...findingsIn(read.file.path, read.file.text));
      } else {
        allReadable = false;
        terminal.complain(read.sentence);
      }
    }
    if (values.json === true) terminal.out(`${JSON.stringify(findings, undefined, 2)}\n`);
    else terminal.out(printed(findings));
    if (!allReadable) return 2;
    return findings.some(({ severity }) => severity === 'error') ? 1 : 0;
  },
};

/** One line for each; where a stretch or a load is among them, the caution in full at the end. */
function printed(findings: readonly Finding[]): string {
  const isLoad = findings.some(({ message }) => message.includes(CAUTION_IN_SHORT));
  return `${findings.map(printFinding).join('')}${isLoad ? `${CAUTION_ON_STRETCH}\n` : ''}`;
}
