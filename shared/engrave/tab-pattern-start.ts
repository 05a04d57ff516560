import type { Item } from './drawing.ts';
import { SIZES } from './sizes.ts';
import type { Piece } from './tab-piece.ts';
import { textWidth } from './text-width.ts';

/** The name of a pattern behind a small corner, from where on it is played. */
export function patternStartPiece(name: string): Piece {
  const size = SIZES.small;
  const corner: Item = {
    kind: 'path',
    steps: [
      ['M', 0, -size * 0.9],
      ['L', 0, 0.2],
      ['L', 0.9, 0.2],
    ],
    ink: 'soft',
    thickness: SIZES.thinStrokeThickness,
  };
  const text: Item = { kind: 'text', x: 1.3, y: 0, text: name, size, anchor: 'start', role: 'word', ink: 'soft' };
  return {
    row: 'pattern',
    left: 0.2,
    right: 1.3 + textWidth(name, 'word', size),
    items: [corner, text],
    signs: ['pattern-start'],
  };
}
