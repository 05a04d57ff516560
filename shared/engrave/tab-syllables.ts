import type { ScoreBar, ScoreSyllable } from '../score/timeline.ts';
import { compare } from '../theory/rational.ts';
import { SIZES } from './sizes.ts';
import type { Piece, Row } from './tab-piece.ts';
import { textPiece } from './tab-text.ts';
import { HYPHEN_ROOM_MM } from './tab-words.ts';

/** The row of each syllable. A verse may be given by the progression and with other words by the tune: both have rows of their own. */
export function wordRows(bar: ScoreBar): readonly { readonly row: Row; readonly syllable: ScoreSyllable }[] {
  const runs: { readonly verse: number; readonly syllables: ScoreSyllable[] }[] = [];
  for (const syllable of bar.syllables) {
    const open = runs.filter((run) => run.verse === syllable.verse).at(-1);
    const last = open?.syllables.at(-1);
    // Each giver's syllables come in order of time, so going back in time is where the next one begins.
    if (open === undefined || last === undefined || compare(syllable.at, last.at) <= 0)
      runs.push({ verse: syllable.verse, syllables: [syllable] });
    else open.syllables.push(syllable);
  }
  return runs.flatMap((run, index) => {
    const before = runs.slice(0, index).filter((other) => other.verse === run.verse).length;
    const row: Row = `word-${run.verse + before * ROWS_OF_ONE_GIVER}`;
    return run.syllables.map((syllable) => ({ row, syllable }));
  });
}

/** More verses than anybody writes under one line, so that a second giver's rows come below all of the first's. */
const ROWS_OF_ONE_GIVER = 100;

/** A syllable stands by itself; the hyphen behind it is set where the next one is known. */
export function syllablePiece(row: Row, text: string): Piece {
  if (!text.endsWith('-') || text === '-') return textPiece(row, text, SIZES.word, 'word');
  const piece = textPiece(row, text.slice(0, -1), SIZES.word, 'word');
  return { ...piece, right: piece.right + HYPHEN_ROOM_MM, goesOn: true };
}
