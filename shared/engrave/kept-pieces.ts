import { Remembered } from '../text/remembered.ts';
import type { Piece } from './tab-piece.ts';

/**
 * Pieces drawn before, by a name that says all that they are drawn from. A key typed into a pattern changes one moment of many, and
 * most bars share theirs; what is the same value as before need not be drawn, nor written as markup, again.
 */
export interface KeptPieces {
  get(name: string, draw: () => readonly Piece[]): readonly Piece[];
}

const MOST_KEPT = 5000;

export function createKeptPieces(): KeptPieces {
  const kept = new Remembered<string, readonly Piece[]>(MOST_KEPT);
  return {
    get: (name, draw) => kept.get(name, () => draw().map((piece): Piece => ({ ...piece, kept: true }))),
  };
}
