import type { Drawing, Item } from './drawing.ts';
import { SIZES } from './sizes.ts';
import { namePiece } from './tab-name.ts';
import { patternStartPiece } from './tab-pattern-start.ts';
import type { Piece } from './tab-piece.ts';
import { FIGURE_HEIGHT_EM, textWidth } from './text-width.ts';

/** Signs that are letters, and the small things drawn at them. */
export type LetterSign = 'picking-fingers' | 'no-chord' | 'assumed-name' | 'pattern-start';

/** Letters as large as on the sheet. */
export function letterSample(sign: LetterSign): Drawing {
  switch (sign) {
    case 'picking-fingers':
      return fingerLetters();
    case 'no-chord':
      return onLine(namePiece(undefined), SIZES.chordName * 0.8);
    case 'assumed-name':
      return onLine(namePiece({ name: 'G7', assumed: true }), SIZES.chordName);
    case 'pattern-start':
      return onLine(patternStartPiece('name'), SIZES.small);
  }
}

/** White between the letters. Unit: mm. */
const LETTER_GAP_MM = 0.9;

/** Under the line: the tails of letters, and what underlines them. Unit: mm. */
const UNDER_LINE_MM = 1.3;

function fingerLetters(): Drawing {
  const size = SIZES.count;
  let width = 0;
  const items = ['p', 'i', 'm', 'a'].map((text): Item => {
    const item: Item = {
      kind: 'text',
      x: width,
      y: size * 0.8,
      text,
      size,
      anchor: 'start',
      role: 'count',
      ink: 'strong',
    };
    width += textWidth(text, 'count', size) + LETTER_GAP_MM;
    return item;
  });
  return { width: width - LETTER_GAP_MM, height: size * 0.8 + 1, items, alternative: '', scale: 1 };
}

function onLine({ items, left, right }: Piece, size: number): Drawing {
  const y = size * FIGURE_HEIGHT_EM + 0.6;
  return {
    width: left + right,
    height: y + UNDER_LINE_MM,
    items: [{ kind: 'group', x: left, y, items }],
    alternative: '',
    scale: 1,
  };
}
