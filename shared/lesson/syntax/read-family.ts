import { reportValue } from './begun-values.ts';
import { readChordName } from './read-names.ts';
import { blockSpan, readName } from './read-progression.ts';
import { readProse } from './read-prose.ts';
import { readShape } from './read-shape.ts';
import { readRing } from './read-values.ts';
import {
  afterLine,
  asksFor,
  type BlockLine,
  phraseOf,
  type Reading,
  replacing,
  report,
  type WordLine,
} from './reading.ts';
import type { FamilyStatement, Prose } from './statement.ts';
import { keywordOf, unknownLine } from './unknown-line.ts';
import type { Word } from './words.ts';

/** `family drone`, then what to find shapes for and what must hold. */
export function readFamily(reading: Reading, line: WordLine, body: readonly BlockLine[]): FamilyStatement {
  const first = line.rest[0];
  const name = first === undefined ? undefined : readName(reading, first, 'family', body.length === 0);
  if (name === undefined) report(reading, 'hint', 'family.no-name', afterLine(line), 'Give the family a name.');
  const found: { -readonly [K in keyof FamilyStatement]?: FamilyStatement[K] } = {};
  const allow: Word[] = [];
  const keep: FamilyStatement['keep'][number][] = [];
  const prose: Prose[] = [];
  for (const said of body) {
    if (said.kind === 'prose') {
      prose.push(readProse(reading, [said.line]));
      continue;
    }
    const words = said.rest.filter((piece) => piece.kind === 'word');
    const [value] = words;
    switch (keywordOf(reading, said, 'family')) {
      case 'from':
        if (value !== undefined) found.from = value;
        else report(reading, 'hint', 'from.no-name', afterLine(said), 'From which progression?');
        break;
      case 'ring': {
        if (asksFor(reading, said, 'Which strings ring on? ring 1 2')) break;
        const ring = readRing(words.map((word) => word.text));
        if (typeof ring === 'string')
          reportValue(reading, 'ring', { text: phraseOf(reading, said.rest)?.text ?? '', span: said.span }, ring);
        else found.ring = { ring, span: said.span };
        break;
      }
      case 'within': {
        if (asksFor(reading, said, 'Between which frets? within 0 to 10')) break;
        const range = /^(\d{1,2})(?:\s+to\s+|-)(\d{1,2})$/.exec(words.map((word) => word.text).join(' '));
        const [low, high] = [Number(range?.[1]), Number(range?.[2])];
        if (range === null || low > high)
          reportValue(
            reading,
            'within',
            { text: phraseOf(reading, said.rest)?.text ?? '', span: said.span },
            'Say from which fret to which: within 0 to 10.',
          );
        else found.within = { low, high, span: said.span };
        break;
      }
      case 'allow':
        allow.push(...words);
        break;
      case 'keep':
        readKeep(reading, said, words, keep);
        break;
      default:
        unknownLine(reading, said, 'family');
    }
  }
  return {
    ...found,
    kind: 'family',
    keyword: line.keyword,
    span: blockSpan(line, body),
    allow,
    keep,
    prose,
    ...(name ? { name } : {}),
  };
}

function readKeep(
  reading: Reading,
  line: WordLine,
  words: readonly Word[],
  keep: FamilyStatement['keep'][number][],
): void {
  const [chord, ...frets] = words;
  if (chord === undefined) {
    report(reading, 'hint', 'keep.no-chord', afterLine(line), 'Keep which chord in which shape? keep D 7-6-0-0');
    return;
  }
  const text = frets.map((word) => word.text).join(' ');
  const shape = text === '' ? undefined : readShape(text);
  if (shape !== undefined && !shape.ok) {
    const first = frets[0] ?? chord;
    const span = { start: first.span.start, end: line.span.end };
    report(
      reading,
      'error',
      shape.problem.code,
      span,
      shape.problem.message,
      shape.problem.instead === undefined ? [] : replacing(span, shape.problem.instead),
    );
  }
  keep.push({ chord: readChordName(chord), span: line.span, ...(shape?.ok ? { shape: shape.value.shape } : {}) });
}
