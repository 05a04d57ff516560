import { lineFinder } from '../../shared/export/line-finder.ts';

/** More than these would fill a screen; the others are in the same lines. */
const MOST_LETTERS = 20;
const MOST_LINES = 10;

/** Says which letters of a file are printed as empty boxes, and in which lines of the lesson they stand; nothing where there are none. */
export function missingLetters(text: string, missing: Iterable<string>): readonly string[] {
  const letters = [...missing];
  if (letters.length === 0) return [];
  const lines = linesWith(text.normalize('NFC'), new Set(letters));
  const where =
    lines.length === 0 ? '' : `, in line${lines.length === 1 ? '' : 's'} ${listed(lines.map(String), MOST_LINES)}`;
  return [`No face has these letters, and they stand as empty boxes${where}: ${listed(letters, MOST_LETTERS, ' ')}`];
}

/** Numbers of the lines that have one of these letters in what is printed of them. */
function linesWith(text: string, letters: ReadonlySet<string>): readonly number[] {
  const lineOf = lineFinder(text);
  const lines = new Set<number>();
  for (const { 0: line, index } of text.matchAll(/.+/g)) {
    if (line.trimStart().startsWith('//')) continue;
    if ([...line].some((letter) => letters.has(letter))) lines.add(lineOf(index));
  }
  return [...lines];
}

function listed(words: readonly string[], most: number, between = ', '): string {
  const more = words.length - most;
  return words.slice(0, most).join(between) + (more > 0 ? ` and ${more} more` : '');
}
