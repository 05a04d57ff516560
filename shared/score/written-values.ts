import type { Stretch } from './bar-tree.ts';
import type { NoteValue } from './rhythm-line.ts';

/** A written note or rest without its kind. Unit of places: ticks. */
export interface WrittenPiece {
  readonly start: number;
  readonly end: number;
  readonly value: NoteValue;
  readonly dots: 0 | 1;
}

const VALUES: readonly NoteValue[] = [1, 2, 4, 8, 16, 32, 64];

/** The plain or dotted value of a length, if one note can say it. Unit: ticks. */
function noteValueOf(length: number, wholeTicks: number): Pick<WrittenPiece, 'value' | 'dots'> | undefined {
  for (const value of VALUES) {
    const plain = wholeTicks / value;
    if (length === plain) return { value, dots: 0 };
    if (2 * length === 3 * plain) return { value, dots: 1 };
  }
  return undefined;
}

/**
 * A sound as tied notes that let the meter be seen. One note is enough for a whole stretch of the bar, and for these:
 *
 * - what begins a stretch of two equal parts and fills three quarters of it (dotted half from 1, dotted quarter from a strong beat);
 * - a dotted half from the second of four beats; nothing else crosses the middle of four beats;
 * - between two beats the syncopation eighth – quarter – eighth, as the one thing off the beat that reaches over a beat;
 * - within a beat everything with a value of its own;
 * - of three beats, or within a dotted beat: what begins on one of the three and ends on one or half way into one.
 *
 * Source: E. Gould, Behind Bars (2011), on ties and syncopation, from memory; the general rule, that beats must be seen, as in the
 * theory text Open Music Theory, on notating rhythm, from memory.
 */
export function notesFor(within: Stretch, start: number, end: number, wholeTicks: number): readonly WrittenPiece[] {
  return piecesFor(within, start, end, wholeTicks, mayBeOneNote);
}

/**
 * Silence as rests that let the meter be seen: each covers a whole stretch of the bar, dotted only in compound meters; a quarter rest
 * may stand for the first two of three eighths. Source: E. Gould, Behind Bars (2011), on rests, from memory.
 */
export function restsFor(within: Stretch, start: number, end: number, wholeTicks: number): readonly WrittenPiece[] {
  return piecesFor(within, start, end, wholeTicks, mayBeOneRest);
}

type Allows = (within: Stretch, start: number, end: number, dots: 0 | 1) => boolean;

function piecesFor(
  within: Stretch,
  start: number,
  end: number,
  wholeTicks: number,
  allows: Allows,
): readonly WrittenPiece[] {
  let stretch = within;
  for (let inner: Stretch | undefined = stretch; inner !== undefined; ) {
    stretch = inner;
    if (stretch.start === start && stretch.end === end) break;
    inner = stretch.parts.find((part) => start >= part.start && end <= part.end);
  }
  const value = noteValueOf(end - start, wholeTicks);
  if (value !== undefined && allows(stretch, start, end, value.dots)) return [{ start, end, ...value }];
  const cut = cutOf(stretch, start, end);
  return [...piecesFor(stretch, start, cut, wholeTicks, allows), ...piecesFor(stretch, cut, end, wholeTicks, allows)];
}

/** Where to part what cannot be one: from off the beat to the next beat, from a beat as far as beats go. */
function cutOf({ parts }: Stretch, start: number, end: number): number {
  const inside = parts.map((part) => part.start).filter((at) => at > start && at < end);
  const isOnPart = parts.some((part) => part.start === start);
  return (isOnPart ? inside.at(-1) : inside[0]) ?? (start + end) / 2;
}

function mayBeOneNote(within: Stretch, start: number, end: number): boolean {
  if (start === within.start && end === within.end) return true;
  const quarter = (within.end - within.start) / 4;
  const from = (start - within.start) / quarter;
  const to = (end - within.start) / quarter;
  switch (within.division) {
    case 'pairs':
      return (from === 0 && to === 3) || (from === 1 && to === 4);
    case 'pair':
      return (from === 0 || from === 1) && to === 3;
    case 'beat':
      return (from === 0 && to === 3) || (from === 1 && (to === 3 || to === 4));
    case 'three':
    case 'beat-of-three':
      return within.parts.some((part) => part.start === start) && within.parts.some((part) => isHalfOrEnd(part, end));
    default:
      return false;
  }
}

function isHalfOrEnd(part: Stretch, at: number): boolean {
  return at === part.end || 2 * at === part.start + part.end;
}

function mayBeOneRest(within: Stretch, start: number, end: number, dots: 0 | 1): boolean {
  const isWhole = start === within.start && end === within.end;
  if (within.division === 'beat-of-three') return isWhole || (start === within.start && end === within.parts[1]?.end);
  return isWhole && (dots === 0 || within.division.startsWith('compound'));
}
