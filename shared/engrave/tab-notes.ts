import type { ScoreNote } from '../score/timeline.ts';
import type { Item } from './drawing.ts';
import { SIZES } from './sizes.ts';
import type { Opening, Piece, Sign, Staff } from './tab-piece.ts';
import {
  arrivalBefore,
  BOW_OVER_FIGURE_MM,
  figureAt,
  type HandMark,
  markPiece,
  techniqueAfter,
} from './tab-technique.ts';
import { textWidth } from './text-width.ts';

/** A note and how it is to look. */
export interface PlacedNote {
  readonly note: ScoreNote;
  /** `ringed` sets a note of the tune apart from accompaniment around it, `bold` one that stands alone. */
  readonly look: 'plain' | 'bold' | 'ringed';
}

/** The fret numbers of one moment with what the fretting hand does to them. */
export function notePieces(staff: Staff, notes: readonly PlacedNote[]): readonly Piece[] {
  if (notes.length === 0) return [];
  const drawn = notes.map((placed) => drawNote(staff, placed));
  const piece: Piece = {
    row: 'staff',
    left: Math.max(...drawn.map((note) => note.left)),
    right: Math.max(...drawn.map((note) => note.right)),
    items: drawn.flatMap((note) => note.items),
    openings: drawn.flatMap((note) => note.openings),
    signs: drawn.flatMap((note) => note.signs),
  };
  const marks = markPiece(drawn.flatMap((note) => note.marks));
  return marks === undefined ? [piece] : [piece, marks];
}

interface DrawnNote {
  readonly items: readonly Item[];
  readonly openings: readonly Opening[];
  readonly marks: readonly HandMark[];
  readonly signs: readonly Sign[];
  readonly left: number;
  readonly right: number;
}

function drawNote(staff: Staff, { note, look }: PlacedNote): DrawnNote {
  const { string, fret, arrivesBy, arrivesFrom, techniques } = note;
  let from = fret;
  const y = staff.y(string);
  const harmonic = arrivesBy === 'harmonic' || techniques.some((technique) => technique.kind === 'harmonic');
  const frame = harmonic ? 'brackets' : look === 'ringed' ? 'ring' : undefined;
  const width = textWidth(String(fret), 'number', SIZES.fretNumber, look === 'plain' ? 'plain' : 'bold');
  const half = width / 2 + { brackets: 1.6, ring: 0.75, none: SIZES.openString }[frame ?? 'none'];
  const items: Item[] = [figureAt(String(fret), 0, y, SIZES.fretNumber, look !== 'plain')];
  const openings: Opening[] = [{ string, left: -half, right: half }];
  const marks: HandMark[] = [];
  const signs: Sign[] = [];
  if (frame !== undefined) items.push(frame === 'brackets' ? bracketsAround(half, y) : ringAround(half, y));
  if (frame === 'brackets') signs.push('harmonic');
  if (look === 'ringed') signs.push('tune');
  let left = half;
  let right = half;
  if (arrivesBy !== undefined) {
    const arrival = arrivalBefore(arrivesBy, half, y, fret - (arrivesFrom ?? fret));
    items.push(...arrival.items);
    marks.push(...arrival.marks);
    signs.push(arrivesBy);
    left = Math.max(left, arrival.left);
    right = Math.max(right, arrival.right);
  }
  for (const technique of techniques) {
    const after = techniqueAfter(technique, right, y, frame === undefined ? BOW_OVER_FIGURE_MM : 0, from);
    if ('fret' in technique && technique.kind !== 'trill') from = technique.fret;
    items.push(...after.items);
    marks.push(...after.marks);
    if (after.opening !== undefined) openings.push({ string, left: right, right: after.opening });
    if (technique.kind !== 'harmonic') signs.push(technique.kind);
    right = Math.max(right, after.right);
  }
  return { items, openings, marks, signs, left, right };
}

/** Angle brackets around the figure: the string is only touched. Common practice of tablature, no source. */
function bracketsAround(half: number, y: number): Item {
  const rise = SIZES.fretNumber * 0.36;
  const depth = 0.9;
  return {
    kind: 'path',
    steps: [
      ['M', -half + depth + 0.2, y - rise],
      ['L', -half + 0.2, y],
      ['L', -half + depth + 0.2, y + rise],
      ['M', half - depth - 0.2, y - rise],
      ['L', half - 0.2, y],
      ['L', half - depth - 0.2, y + rise],
    ],
    ink: 'strong',
    thickness: 0.26,
  };
}

function ringAround(half: number, y: number): Item {
  const height = SIZES.stringGap - 0.1;
  return {
    kind: 'rectangle',
    x: -half,
    y: y - height / 2,
    width: 2 * half,
    height,
    rounding: height / 2,
    ink: 'accent',
    thickness: 0.34,
  };
}
