import { readChord } from './read-chord.ts';
import { readGrid } from './read-grid.ts';
import { blockSpan } from './read-progression.ts';
import { readProse } from './read-prose.ts';
import { afterLine, asksFor, type BlockLine, type Reading, report, titleOf, type WordLine } from './reading.ts';
import type { ChordStatement, EditionStatement, GridStatement, Prose } from './statement.ts';
import { keywordOf, unknownLine } from './unknown-line.ts';

/** `edition bari`, then statements one step further in; what stands deeper still belongs to them. */
export function readEdition(reading: Reading, line: WordLine, body: readonly BlockLine[]): EditionStatement {
  const name = titleOf(reading, line.rest);
  if (name === undefined)
    report(
      reading,
      'hint',
      'edition.no-name',
      afterLine(line),
      'Which edition? Write the name after called, or the instrument.',
    );
  const chords: ChordStatement[] = [];
  const grids: GridStatement[] = [];
  const prose: Prose[] = [];
  let capo: EditionStatement['capo'];
  const margin = Math.min(...body.map((said) => said.indent));
  for (let index = 0; index < body.length; index++) {
    const said = body[index];
    if (said === undefined) break;
    const inner: BlockLine[] = [];
    for (let next = body[index + 1]; next !== undefined && next.indent > margin; next = body[index + 1]) {
      inner.push(next);
      index++;
    }
    if (said.kind === 'prose') {
      prose.push(readProse(reading, [said.line]));
      continue;
    }
    const word = keywordOf(reading, said, 'edition');
    if (word === 'pattern' || word === 'melody') {
      grids.push(readGrid(reading, word, said, inner));
      continue;
    }
    if (word === 'chord') chords.push(readChord(reading, said));
    else if (word === 'capo') {
      const value = said.rest[0]?.text ?? '';
      if (/^\d{1,2}$/.test(value)) capo = { fret: Number(value), span: said.span };
      else if (!asksFor(reading, said, 'At which fret? capo 2'))
        report(reading, 'error', 'capo.unreadable', said.span, 'At which fret? Write a number: capo 2.');
    } else unknownLine(reading, said, 'edition');
    for (const line of inner) {
      if (line.kind === 'prose') prose.push(readProse(reading, [line.line]));
      else
        report(
          reading,
          'error',
          'line.too-deep',
          line.span,
          'This line is indented under one that takes no lines of its own.',
        );
    }
  }
  return {
    kind: 'edition',
    keyword: line.keyword,
    span: blockSpan(line, body),
    chords,
    grids,
    prose,
    ...(name !== undefined ? { name } : {}),
    ...(capo !== undefined ? { capo } : {}),
  };
}
