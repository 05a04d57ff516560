import type { Piece } from './tab-piece.ts';

/**
 * Pieces drawn before, by a name that says all that they are drawn from. A key typed into a pattern changes one moment of many, and
 * most bars share theirs; what is the same value as before need not be drawn, nor written as markup, again.
 */
export interface KeptPieces {
  get(name: string, draw: () => readonly Piece[]): readonly Piece[];
}

/** More than a long lesson has; beyond it the memory starts again, so that it cannot grow without end. */
const MOST_KEPT = 5000;

export function createKeptPieces(): KeptPieces {
  const kept = new Map<string, readonly Piece[]>();
  return {
    get(name, draw) {
      const known = kept.get(name);
      if (known !== undefined) return known;
      if (kept.size >= MOST_KEPT) kept.clear();
      const pieces = draw().map((piece): Piece => ({ ...piece, kept: true }));
      kept.set(name, pieces);
      return pieces;
    },
  };
}
