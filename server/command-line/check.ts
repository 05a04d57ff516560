import { TextDocument } from 'vscode-languageserver-textdocument';
import { problemsOf } from '../../shared/lesson/check/problems.ts';
import { openDocument } from '../../shared/lesson/document.ts';
import type { Severity } from '../../shared/text/problem.ts';
import { toRange } from '../to-protocol.ts';
import { type LessonFile, readLesson } from './lesson-file.ts';
import { readWords } from './read-words.ts';
import { type Command, UsageError } from './terminal.ts';

/** One problem as scripts read it. Lines and columns count from 1; columns count UTF-16 units, as editors show them. */
interface Finding {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly severity: Severity;
  readonly code: string;
  readonly message: string;
  readonly fixes: readonly { readonly title: string }[];
  /** The further edition that it is about; several are parted by commas. Absent where it is about the lesson itself. */
  readonly edition?: string;
}

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
        findings.push(...findingsIn(read.file));
      } else {
        allReadable = false;
        terminal.complain(read.sentence);
      }
    }
    if (values.json === true) terminal.out(`${JSON.stringify(findings, undefined, 2)}\n`);
    else terminal.out(findings.map(printed).join(''));
    if (!allReadable) return 2;
    return findings.some(({ severity }) => severity === 'error') ? 1 : 0;
  },
};

function findingsIn({ path, text }: LessonFile): readonly Finding[] {
  const lines = TextDocument.create(path, 'handspan', 0, text);
  return problemsOf(openDocument(text)).map(({ span, severity, code, message, fixes, edition }) => {
    const { start, end } = toRange(lines, span);
    return {
      file: path,
      line: start.line + 1,
      column: start.character + 1,
      endLine: end.line + 1,
      endColumn: end.character + 1,
      severity,
      code,
      message,
      fixes: (fixes ?? []).map(({ title }) => ({ title })),
      ...(edition === undefined ? {} : { edition }),
    };
  });
}

function printed({ file, line, column, severity, code, message }: Finding): string {
  return `${file}:${line}:${column}: ${severity}: ${message} [${code}]\n`;
}
