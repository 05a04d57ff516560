import type { NoteValue } from './rhythm-line.ts';
import type { TupletSpan } from './tuplet-spans.ts';
import type { WrittenPiece } from './written-values.ts';

/**
 * How many of its written notes would fill a tuplet's time by the meter: three in the time of two, five in the time of four. The
 * number is the greatest below the count that gives a value of its own; two against three are written as halves of the dotted beat
 * would be, 2 in the time of 3, and four as their halves. Source: common practice; E. Gould, Behind Bars (2011), from memory.
 */
export function inTimeOf({ start, end, count }: TupletSpan, wholeTicks: number): number {
  // The length is this odd number of some plain value.
  let odd = (64 * (end - start)) / wholeTicks;
  while (odd % 2 === 0) odd /= 2;
  let number = odd;
  if (odd === 3 && Number.isInteger(Math.log2(count))) number = (odd * count) / 2;
  else while (number * 2 <= count) number *= 2;
  const value = (): number => (number * wholeTicks) / (end - start);
  while (value() > 64 && number % 2 === 0) number /= 2;
  while (value() < 1) number *= 2;
  return number;
}

/** Written notes for a sound or silence inside a tuplet, the longest first. */
export function piecesInTuplet(
  span: TupletSpan,
  start: number,
  end: number,
  isRest: boolean,
  wholeTicks: number,
): readonly WrittenPiece[] {
  const part = (span.end - span.start) / span.count;
  const value = (inTimeOf(span, wholeTicks) * wholeTicks) / (span.end - span.start);
  const pieces: WrittenPiece[] = [];
  for (let at = start; at < end; ) {
    const piece = longestPiece(value, Math.round((end - at) / part), isRest);
    pieces.push({ start: at, end: at + piece.parts * part, value: piece.value, dots: piece.dots });
    at += piece.parts * part;
  }
  return pieces;
}

/** The longest note that is no more than so many parts of the tuplet; rests have no dots. */
function longestPiece(value: number, parts: number, isRest: boolean) {
  let best: { parts: number; value: NoteValue; dots: 0 | 1 } = { parts: 1, value: asNoteValue(value), dots: 0 };
  for (let doubled = 1; doubled <= parts && value / doubled >= 1; doubled *= 2) {
    best = { parts: doubled, value: asNoteValue(value / doubled), dots: 0 };
    const isDotted = doubled * 3 <= parts * 2 && doubled > 1;
    if (isDotted && !isRest) best = { parts: (doubled * 3) / 2, value: best.value, dots: 1 };
  }
  return best;
}

const VALUES: readonly NoteValue[] = [1, 2, 4, 8, 16, 32, 64];

function asNoteValue(value: number): NoteValue {
  return VALUES.find((candidate) => candidate === value) ?? 64;
}
