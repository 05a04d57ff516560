import { begunNames } from '../../text/begun.ts';
import { listed } from '../../text/counted.ts';
import { nearest } from '../../text/nearest.ts';
import type { Fix } from '../../text/problem.ts';
import { isBegunChordName } from '../../theory/chord-begun.ts';
import { type Block, KEYWORDS } from './keywords.ts';
import { isCapo, tellCapoPlace } from './misplaced-capo.ts';
import { type Reading, replacing, report, reportUnfinished, type WordLine } from './reading.ts';
import { proseFix, tellWithoutKeyword } from './without-keyword.ts';

/** Tells that a line's first word means nothing in this block, and which word may have been meant. */
export function unknownLine(reading: Reading, line: WordLine, block: Block): void {
  const { text: word, span } = line.keyword;
  const known = KEYWORDS[block].map((keyword) => keyword.word);
  // The check of the header, which sees the instrument's line, tells it with a fix.
  if (block === 'lesson' && isCapo(line)) return;
  if (isPlainlyProse(line)) {
    report(reading, 'error', 'prose.sign', line.span, PROSE, [proseFix(line)]);
    return;
  }
  const place = placeOf(word.toLowerCase(), block);
  if (place !== undefined) {
    report(reading, 'error', 'keyword.place', span, place);
    return;
  }
  const begun = line.rest.length === 0 ? begunNames(word, [...known, '//']) : [];
  if (begun.length > 0) {
    const fixes = begun.flatMap((one) => replacing(span, one));
    reportUnfinished(reading, 'keyword.half-typed', span, `${word} is begun; go on: ${listed(begun, 'or')}.`, fixes);
    return;
  }
  if (block === 'melody' && line.rest.length === 0 && isBegunChordName(word)) {
    reportUnfinished(reading, 'chord.half-typed', span, `${word} is not a whole chord name yet.`);
    return;
  }
  if (block === 'lesson' && tellWithoutKeyword(reading, line)) return;
  const meant = nearest(word, known);
  const where = block === 'lesson' ? 'at the left margin' : `in ${withArticle(block)}`;
  if (isSentence(line, meant !== undefined)) {
    const orElse = meant === undefined ? '' : ` Or did you mean ${meant}?`;
    const fixes: readonly Fix[] = [proseFix(line), ...(meant === undefined ? [] : replacing(span, meant))];
    const message = `${PROSE}${orElse}`;
    report(reading, 'error', 'prose.sign', line.span, message, fixes);
    return;
  }
  if (meant !== undefined) {
    const message = `${word} means nothing ${where}; did you mean ${meant}?`;
    report(reading, 'error', 'keyword.unknown', span, message, replacing(span, meant));
    return;
  }
  const may =
    block === 'lesson'
      ? `A line there begins with a word such as ${listed(USUAL, 'or')}`
      : `Known are ${listed(known)}`;
  const message = `${word} means nothing ${where}. ${may}; a sentence for the student begins with >.`;
  report(reading, 'error', 'keyword.unknown', span, message, [proseFix(line)]);
}

const PROSE = 'A sentence for the student begins with the sign >.';

/** What most lines at the margin begin with: a list of all of them would be read by nobody. */
const USUAL = ['for', 'key', 'chord', 'progression', 'pattern', 'melody', 'exercise'];

/** So many words are a sentence, whatever the first of them looks like. Common practice, no source. */
const WORDS_OF_SENTENCE = 4;

/** A line that is a sentence even where it begins with a keyword of another block: `Play it slowly.` */
function isPlainlyProse({ keyword, rest }: WordLine): boolean {
  const text = [keyword, ...rest].map((piece) => piece.text).join(' ');
  return !/[|\d]/.test(text) && /^\p{Lu}/u.test(text) && /\p{L}[.!?…]$/u.test(text) && rest.length >= 2;
}

/** Whether the line reads like prose; where its first word is nearly a keyword, only a long one or one that ends like a sentence does. */
function isSentence({ rest }: WordLine, isNearKeyword: boolean): boolean {
  if (rest.some((piece) => piece.kind === 'bar-sign')) return false;
  const last = rest.at(-1);
  if (last === undefined) return false;
  const words = rest.filter((piece) => piece.kind === 'word' && /\p{L}/u.test(piece.text)).length + 1;
  return words >= WORDS_OF_SENTENCE || /[.!?…:]$/.test(last.text) || (!isNearKeyword && words > 1);
}

/** Where a word belongs that is a keyword elsewhere; nothing where it is none. */
function placeOf(word: string, block: Block): string | undefined {
  if (word === 'capo') return tellCapoPlace(undefined);
  const blocks = (Object.keys(KEYWORDS) as Block[]).filter((other) =>
    KEYWORDS[other].some((keyword) => keyword.word === word),
  );
  if (blocks.length === 0) return undefined;
  const under = blocks.filter((other) => other !== 'lesson').map(withArticle);
  const margin = blocks.includes('lesson') ? ['at the left margin'] : [];
  const places = [...margin, ...(under.length === 0 ? [] : [`indented, under ${listed(under, 'or')}`])];
  const here = block === 'lesson' ? '' : `, not in ${withArticle(block)}`;
  return `${word} belongs ${places.join(', or ')}${here}.`;
}

function withArticle(block: Block): string {
  return `${/^[aeiou]/.test(block) ? 'an' : 'a'} ${block}`;
}

/** The keyword in lower case; a capital is a hint with a fix and understood all the same. */
export function keywordOf(reading: Reading, line: WordLine, block: Block): string {
  const { text, span } = line.keyword;
  const lower = text.toLowerCase();
  if (text === lower || !KEYWORDS[block].some((keyword) => keyword.word === lower)) return text;
  report(reading, 'hint', 'keyword.case', span, `${lower} is written in lower case.`, replacing(span, lower));
  return lower;
}
