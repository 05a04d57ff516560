import { syllableAt } from './syllables.ts';

/**
 * The words of a line, cut where chords stand over them: what comes before the first, then a piece for each. A chord inside a word
 * parts it at the syllable that it stands over.
 */
export function cutWords(text: string, columns: readonly number[]): readonly string[] {
  const words = [...text.matchAll(/\S+/g)].map(({ 0: word, index }) => ({ word, start: index }));
  const pieces: string[][] = [[]];
  let at = 0;
  const takeUntil = (column: number): void => {
    for (; at < words.length; at += 1) {
      const next = words[at];
      if (next === undefined || next.start >= column) return;
      const within = column - next.start;
      const cut = within < next.word.length ? syllableAt(next.word, within) : next.word.length;
      if (cut > 0) pieces.at(-1)?.push(cut < next.word.length ? joined(next.word.slice(0, cut)) : next.word);
      if (cut === next.word.length) continue;
      words[at] = { word: next.word.slice(cut), start: next.start + cut };
      return;
    }
  };
  for (const column of columns) {
    takeUntil(column);
    pieces.push([]);
  }
  takeUntil(Number.POSITIVE_INFINITY);
  return pieces.map((piece) => piece.join(' '));
}

/** The first part of a word ends with the hyphen that parts syllables. */
function joined(part: string): string {
  return part.endsWith('-') ? part : `${part}-`;
}

/** A `words` line for a line of bars, or nothing where nothing is sung. */
export function wordsLine(pieces: readonly string[]): string | undefined {
  let last = pieces.length;
  while (last > 0 && pieces[last - 1] === '') last -= 1;
  if (last === 0) return undefined;
  const said = pieces.slice(0, last);
  // A bar line at the head frames the line; without it an empty first bar would be lost. A lone figure there would be a verse.
  const head = said[0] === '' ? '| ' : /^\d(?:\s|$)/.test(said[0] ?? '') ? '1 ' : '';
  return `words  ${head}${said.join(' | ')}`;
}
