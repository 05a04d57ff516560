/** A line as its author wrote it, and the lines of the text that it stood on, from 0. */
export interface SourceLine {
  readonly text: string;
  readonly sources: readonly number[];
}

/**
 * The lines of a text. `\n`, `\r\n` and a lone `\r` all end a line. A raw mail in quoted-printable has an equals sign at the end of
 * a line that only the mail has cut, and bytes as `=E2=80=93`: these are undone. Source: RFC 2045, 6.7.
 */
export function sourceLines(text: string): readonly SourceLine[] {
  const lines = text.split(/\r\n|\n|\r/);
  if (!isQuotedPrintable(lines)) return lines.map((line, index) => ({ text: line, sources: [index] }));
  const joined: { text: string; sources: number[]; goesOn: boolean }[] = [];
  for (const [index, line] of lines.entries()) {
    const sent = line.trimEnd();
    const goesOn = sent.endsWith('=');
    const own = goesOn ? sent.slice(0, -1) : line;
    const open = joined.at(-1);
    if (open?.goesOn === true) {
      open.text += own;
      open.sources.push(index);
      open.goesOn = goesOn;
    } else joined.push({ text: own, sources: [index], goesOn });
  }
  return joined.map(({ text: sent, sources }) => ({ text: decoded(sent), sources }));
}

/**
 * Equals signs that a writer uses as dashes stand beside each other or before figures; here each ends a line, or is the code of a
 * sign that mails cannot send as it is: bytes beyond ASCII, the equals sign itself, blanks at the end.
 */
function isQuotedPrintable(lines: readonly string[]): boolean {
  const sent = lines.map((line) => line.trimEnd()).filter((line) => line.includes('='));
  if (sent.length === 0 || lines.at(-1)?.trimEnd().endsWith('=') === true) return false;
  return sent.every((line) => !/=(?!3D|20|09|[89A-F][0-9A-F]|$)/.test(line));
}

function decoded(line: string): string {
  return line.replace(/(?:=[0-9A-F]{2})+/g, (bytes) => {
    try {
      return decodeURIComponent(bytes.replaceAll('=', '%'));
    } catch {
      // Bytes of another character set stay as they were sent.
      return bytes;
    }
  });
}
