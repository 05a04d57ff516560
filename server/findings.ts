import { TextDocument } from 'vscode-languageserver-textdocument';
import { problemsOf } from '../shared/lesson/check/problems.ts';
import { openDocument } from '../shared/lesson/document.ts';
import type { Severity } from '../shared/text/problem.ts';
import { toRange } from './to-protocol.ts';

/** One problem as scripts read it. Lines and columns count from 1; columns count UTF-16 units, as editors show them. */
export interface Finding {
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

/** All that is said of a lesson, in the order of its text. */
export function findingsIn(path: string, text: string, document = openDocument(text)): readonly Finding[] {
  const lines = TextDocument.create(path, 'handspan', 0, text);
  return problemsOf(document).map(({ span, severity, code, message, fixes, edition }) => {
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

/** The same as compilers print it, for people and for programs that jump to places. */
export function printFinding({ file, line, column, severity, code, message }: Finding): string {
  return `${file}:${line}:${column}: ${severity}: ${message} [${code}]\n`;
}
