import type { Problem } from '../../text/problem.ts';
import { isCapo, reportCapoBelow } from './misplaced-capo.ts';
import { readChord } from './read-chord.ts';
import { readEdition } from './read-edition.ts';
import { readExercise } from './read-exercise.ts';
import { readFamily } from './read-family.ts';
import { readGrid } from './read-grid.ts';
import { readHeader } from './read-header.ts';
import { readProgression } from './read-progression.ts';
import { readProse } from './read-prose.ts';
import { type BlockLine, blockLines, type Reading, report, type WordLine } from './reading.ts';
import { scanLines } from './scan-lines.ts';
import type { Prose, Statement } from './statement.ts';
import type { Line } from './token.ts';
import { keywordOf, unknownLine } from './unknown-line.ts';

/** A statement with everything that belongs to it, read by itself. All spans inside count from its first character. */
export interface Entry {
  readonly text: string;
  readonly lines: readonly Line[];
  readonly statement: Statement;
  readonly problems: readonly Problem[];
}

/** Reads one entry. Depends on the text alone, so equal texts may share one reading. Never throws, whatever the text. */
export function readEntry(text: string): Entry {
  const lines = scanLines(text);
  const reading: Reading = { text, problems: [] };
  const statement = readStatement(reading, lines);
  return { text, lines, statement, problems: reading.problems };
}

function readStatement(reading: Reading, lines: readonly Line[]): Statement {
  const [head, ...body] = blockLines(reading, lines);
  if (head === undefined) return { kind: 'nothing', span: { start: 0, end: reading.text.length } };
  if (head.indent > 0) {
    // Only the first entry can begin with an indented line: there is no statement above it to belong to.
    for (const said of [head, ...body]) orphan(reading, said);
    return { kind: 'nothing', span: { start: 0, end: reading.text.length } };
  }
  if (head.kind === 'prose') {
    for (const said of body) if (said.kind === 'words') orphan(reading, said);
    return { kind: 'prose', span: spanOfLines(lines), paragraphs: paragraphsOf(reading, lines) };
  }
  const keyword = keywordOf(reading, head, 'lesson');
  const block = readBlock(reading, keyword, head, body);
  if (block !== undefined) return block;
  const statement = keyword === 'chord' ? readChord(reading, head) : readHeader(reading, head, keyword);
  for (const said of body) {
    if (statement === undefined) break;
    if (said.kind === 'words' && isCapo(said)) reportCapoBelow(reading, said, statement);
    else if (said.kind === 'words')
      report(
        reading,
        'error',
        'line.too-deep',
        said.span,
        `${keyword} takes no lines of its own; move this one to the left margin or under another statement.`,
      );
    else
      report(
        reading,
        'hint',
        'prose.place',
        { start: said.line.start, end: said.line.end },
        `Prose under ${keyword} is not printed; move its > to the left margin.`,
      );
  }
  if (statement !== undefined) return statement;
  unknownLine(reading, head, 'lesson');
  const [name] = head.rest;
  const named = name?.kind === 'word' ? { name } : {};
  return { kind: 'unknown', keyword: head.keyword, ...named, span: spanOfLines(lines) };
}

function readBlock(
  reading: Reading,
  keyword: string,
  head: WordLine,
  body: readonly BlockLine[],
): Statement | undefined {
  switch (keyword) {
    case 'progression':
      return readProgression(reading, head, body);
    case 'pattern':
    case 'melody':
      return readGrid(reading, keyword, head, body);
    case 'exercise':
      return readExercise(reading, head, body);
    case 'family':
      return readFamily(reading, head, body);
    case 'edition':
      return readEdition(reading, head, body);
    default:
      return undefined;
  }
}

function orphan(reading: Reading, said: BlockLine): void {
  const span = said.kind === 'words' ? said.span : { start: said.line.start, end: said.line.end };
  report(
    reading,
    'error',
    'line.orphan',
    span,
    'This line is indented, but no statement stands above it that it could belong to.',
  );
}

/** Prose lines next to each other are one paragraph; an empty line or a bare `>` starts the next. */
function paragraphsOf(reading: Reading, lines: readonly Line[]): readonly Prose[] {
  const paragraphs: Prose[] = [];
  let open: Line[] = [];
  const close = (): void => {
    if (open.length > 0) paragraphs.push(readProse(reading, open));
    open = [];
  };
  for (const line of lines) {
    if (line.kind === 'prose') open.push(line);
    else if (line.kind === 'empty') close();
  }
  close();
  return paragraphs;
}

function spanOfLines(lines: readonly Line[]): { start: number; end: number } {
  const said = lines.filter((line) => line.kind === 'prose' || line.kind === 'statement');
  return { start: said[0]?.start ?? 0, end: said.at(-1)?.end ?? 0 };
}
