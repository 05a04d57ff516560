import { nearest } from '../../text/nearest.ts';
import { type Block, KEYWORDS } from './keywords.ts';
import { type Reading, replacing, report, type WordLine } from './reading.ts';

/** Tells that a line's first word means nothing in this block, and which word may have been meant. */
export function unknownLine(reading: Reading, line: WordLine, block: Block): void {
  const word = line.keyword.text;
  const known = KEYWORDS[block].map((keyword) => keyword.word);
  const inLowerCase = word.toLowerCase();
  const meant = nearest(word, known);
  const where = block === 'lesson' ? 'at the left margin' : `in ${/^[aeiou]/.test(block) ? 'an' : 'a'} ${block}`;
  if (
    block === 'lesson' &&
    Object.values(KEYWORDS).some((list) => list.some((keyword) => keyword.word === inLowerCase))
  ) {
    report(
      reading,
      'error',
      'keyword.place',
      line.keyword.span,
      `${inLowerCase} belongs indented, under the statement it is part of.`,
    );
    return;
  }
  if (block !== 'lesson' && KEYWORDS.lesson.some((keyword) => keyword.word === inLowerCase)) {
    report(
      reading,
      'error',
      'keyword.place',
      line.keyword.span,
      `${inLowerCase} stands at the left margin, not indented ${where}.`,
    );
    return;
  }
  report(
    reading,
    'error',
    'keyword.unknown',
    line.keyword.span,
    meant === undefined
      ? `${word} means nothing ${where}. What may stand there: ${known.join(', ')}.`
      : `${word} means nothing ${where}; did you mean ${meant}?`,
    meant === undefined ? [] : replacing(line.keyword.span, meant),
  );
}

/** The keyword in lower case; a capital is a hint with a fix and understood all the same. */
export function keywordOf(reading: Reading, line: WordLine, block: Block): string {
  const { text, span } = line.keyword;
  const lower = text.toLowerCase();
  if (text === lower || !KEYWORDS[block].some((keyword) => keyword.word === lower)) return text;
  report(reading, 'hint', 'keyword.case', span, `${lower} is written in lower case.`, replacing(span, lower));
  return lower;
}
