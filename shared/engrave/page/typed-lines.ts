import type { Item } from '../drawing.ts';
import { styledText, styledWidth, TYPED } from './type-style.ts';

/** Width of one column of text as it was typed. Unit: em. Wide enough for the letters of most words. */
const COLUMN_EM = 0.62;

/**
 * Text as it was typed, its columns kept without a typewriter's face: every word begins at the column where it was typed, or
 * further right where the words before it need the room. A line that is too long goes on below, standing in.
 */
export function typedLines(text: string, size: number, width: number): readonly (readonly Item[])[] {
  const column = COLUMN_EM * size;
  return text.split('\n').flatMap((typed) => {
    const lines: Item[][] = [[]];
    let end = 0;
    let shift = 0;
    for (const { 0: word, index } of typed.matchAll(/\S+/g)) {
      let x = Math.max(index * column - shift, end);
      for (const piece of parted(word, size, width - 2 * column)) {
        const wide = styledWidth(piece, TYPED, size);
        if (x + wide > width && lines.at(-1)?.length !== 0) {
          lines.push([]);
          x = 2 * column;
          shift = index * column - x;
        }
        lines.at(-1)?.push(styledText(piece, TYPED, { x: Math.min(x, Math.max(0, width - wide)), y: 0, size }));
        x = Math.min(x, Math.max(0, width - wide)) + wide;
      }
      end = x + styledWidth(' ', TYPED, size);
    }
    return lines;
  });
}

/** A word in pieces that are no wider than a line. */
function parted(word: string, size: number, width: number): readonly string[] {
  if (styledWidth(word, TYPED, size) <= width) return [word];
  const pieces: string[] = [];
  let open = '';
  for (const character of word) {
    if (open !== '' && styledWidth(open + character, TYPED, size) > width) {
      pieces.push(open);
      open = '';
    }
    open += character;
  }
  return [...pieces, open];
}
