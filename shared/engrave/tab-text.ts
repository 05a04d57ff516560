import type { Piece, Row } from './tab-piece.ts';
import { textWidth } from './text-width.ts';

/** Words in the middle under or over their moment. `size` in mm. */
export function textPiece(row: Row, text: string, size: number, role: 'count' | 'word'): Piece {
  const half = textWidth(text, role, size) / 2;
  return {
    row,
    left: half,
    right: half,
    items: [{ kind: 'text', x: 0, y: 0, text, size, anchor: 'middle', role, ink: 'strong' }],
  };
}
