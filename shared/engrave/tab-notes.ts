import type { Technique } from '../lesson/syntax/marks.ts';
import type { ScoreNote } from '../score/timeline.ts';
import type { Item } from './drawing.ts';
import { bow, diamond, filled } from './outlines.ts';
import { SIZES } from './sizes.ts';
import type { Opening, Piece, Sign, Staff } from './tab-piece.ts';
import { FIGURE_HEIGHT_EM, textWidth } from './text-width.ts';

/** A note and how it is to look. */
export interface PlacedNote {
  readonly note: ScoreNote;
  /** `ringed` sets a note of the tune apart from accompaniment around it, `bold` one that stands alone. */
  readonly look: 'plain' | 'bold' | 'ringed';
}

/** The fret numbers of one moment with what the fretting hand does to them. */
export function notePieces(staff: Staff, notes: readonly PlacedNote[]): readonly Piece[] {
  if (notes.length === 0) return [];
  const items: Item[] = [];
  const openings: Opening[] = [];
  const marks: Item[] = [];
  const signs: Sign[] = [];
  let left = 0;
  let right = 0;
  let marksLeft = 0;
  let marksRight = 0;
  for (const { note, look } of notes) {
    const y = staff.y(note.string);
    const harmonic =
      note.arrivesBy === 'harmonic' || note.techniques.some((technique) => technique.kind === 'harmonic');
    const width = textWidth(String(note.fret), 'number', SIZES.fretNumber) * (look === 'plain' ? 1 : 1.06);
    const half = width / 2 + (harmonic ? 1.2 : look === 'ringed' ? 0.75 : 0);
    items.push(figureAt(String(note.fret), 0, y, SIZES.fretNumber, look !== 'plain'));
    if (harmonic) {
      items.push({
        kind: 'path',
        steps: diamond(0, y, half + 0.5, SIZES.stringGap * 0.62),
        ink: 'strong',
        thickness: 0.26,
      });
      signs.push('harmonic');
    } else if (look === 'ringed') {
      const height = SIZES.stringGap - 0.1;
      items.push({
        kind: 'rectangle',
        x: -half,
        y: y - height / 2,
        width: 2 * half,
        height,
        rounding: height / 2,
        ink: 'accent',
        thickness: 0.34,
      });
    }
    if (look === 'ringed') signs.push('tune');
    const open = half + (harmonic ? 0.5 : look === 'ringed' ? 0 : SIZES.openString);
    openings.push({ string: note.string, left: -open, right: open });
    left = Math.max(left, open);
    if (note.arrivesBy !== undefined) {
      const arrival = arrivalAt(note.arrivesBy, open, y);
      items.push(...arrival.items);
      marks.push(...arrival.marks);
      if (arrival.marks.length > 0) marksLeft = Math.max(marksLeft, 2.6);
      signs.push(note.arrivesBy);
      left = Math.max(left, arrival.left);
    }
    let at = open;
    for (const technique of note.techniques) {
      const drawn = techniqueAt(technique, at, y, look === 'ringed' ? 0 : BOW_OVER_FIGURE_MM);
      items.push(...drawn.items);
      if (drawn.opening !== undefined) openings.push({ string: note.string, left: at, right: drawn.opening });
      if (drawn.letter !== undefined) {
        const size = SIZES.count;
        const middle = (at + drawn.right) / 2;
        marks.push({
          kind: 'text',
          x: middle,
          y: 0,
          text: drawn.letter,
          size,
          anchor: 'middle',
          role: 'count',
          ink: 'strong',
        });
        const halfLetter = textWidth(drawn.letter, 'count', size) / 2;
        marksLeft = Math.max(marksLeft, halfLetter - middle);
        marksRight = Math.max(marksRight, middle + halfLetter);
      }
      if (technique.kind === 'vibrato') {
        marks.push({ kind: 'path', steps: ripple(at - 1.2, -0.9), ink: 'strong', thickness: 0.32 });
        marksRight = Math.max(marksRight, at + 4);
      }
      if (technique.kind !== 'harmonic') signs.push(technique.kind);
      at = Math.max(at, drawn.right);
    }
    right = Math.max(right, at);
  }
  const staffPiece: Piece = { row: 'staff', left, right, items, openings, signs };
  if (marks.length === 0) return [staffPiece];
  return [staffPiece, { row: 'mark', left: marksLeft, right: marksRight, items: marks }];
}

export function figureAt(text: string, x: number, y: number, size: number, bold: boolean): Item {
  const base = {
    kind: 'text',
    x,
    y: y + (size * FIGURE_HEIGHT_EM) / 2,
    text,
    size,
    anchor: 'middle',
    role: 'number',
    ink: 'strong',
  } as const;
  return bold ? { ...base, bold: true } : base;
}

/** A note that is not struck but reached, in a column of its own, from the note before. */
function arrivalAt(
  kind: Technique['kind'],
  open: number,
  y: number,
): { readonly items: readonly Item[]; readonly marks: readonly Item[]; readonly left: number } {
  const letter = (text: string): Item => ({
    kind: 'text',
    x: -1.6,
    y: 0,
    text,
    size: SIZES.count,
    anchor: 'middle',
    role: 'count',
    ink: 'strong',
  });
  switch (kind) {
    case 'hammer-on':
    case 'pull-off': {
      const arc: Item = {
        kind: 'path',
        steps: bow(-3.8, 0.2, y - 1.5, -0.9),
        ink: 'strong',
        thickness: SIZES.slurThickness,
      };
      return { items: [arc], marks: [letter(LETTERS[kind])], left: open };
    }
    case 'slide': {
      const glide: Item = {
        kind: 'line',
        x1: -open - 1.9,
        y1: y + 0.8,
        x2: -open - 0.2,
        y2: y - 0.8,
        thickness: 0.32,
        ink: 'strong',
      };
      return { items: [glide], marks: [letter(LETTERS.slide)], left: open + 1.9 };
    }
    case 'trill':
      return { items: [], marks: [{ ...letter(LETTERS.trill), x: 0 } as Item], left: open };
    case 'vibrato':
      return {
        items: [],
        marks: [{ kind: 'path', steps: ripple(-2.6, -0.9), ink: 'strong', thickness: 0.32 }],
        left: open,
      };
    case 'bend':
    case 'harmonic':
      return { items: techniqueAt({ kind }, open, y, 0).items, marks: [], left: open };
  }
}

interface DrawnTechnique {
  readonly items: readonly Item[];
  readonly right: number;
  readonly letter?: string;
  /** How far right the string line is left open from the note on. */
  readonly opening?: number;
}

/** How far a bow begins over the figure it comes from; a ring keeps it outside. Unit: mm. */
const BOW_OVER_FIGURE_MM = 0.9;

/** Letters of the fretting hand's ways to sound a note. Common practice of tablature, no source. */
const LETTERS = { 'hammer-on': 'h', 'pull-off': 'p', slide: 's', trill: 'tr' } as const;

function techniqueAt(technique: Technique, at: number, y: number, bowOver: number): DrawnTechnique {
  const size = SIZES.arrivalNumber;
  switch (technique.kind) {
    case 'hammer-on':
    case 'pull-off': {
      const half = textWidth(String(technique.fret), 'number', size) / 2;
      const x = at + 1.1 + half;
      const steps = bow(at - bowOver, x, y - size * 0.54, -0.8);
      const arc: Item = { kind: 'path', steps, ink: 'strong', thickness: SIZES.slurThickness };
      const right = x + half + SIZES.openString;
      return {
        items: [figureAt(String(technique.fret), x, y, size, false), arc],
        right,
        letter: LETTERS[technique.kind],
        opening: right,
      };
    }
    case 'slide': {
      const half = textWidth(String(technique.fret), 'number', size) / 2;
      const x = at + 2.3 + half;
      const glide: Item = {
        kind: 'line',
        x1: at + 0.2,
        y1: y + 0.8,
        x2: at + 1.9,
        y2: y - 0.8,
        thickness: 0.32,
        ink: 'strong',
      };
      const right = x + half + SIZES.openString;
      return {
        items: [glide, figureAt(String(technique.fret), x, y, size, false)],
        right,
        letter: LETTERS.slide,
        opening: right,
      };
    }
    case 'trill': {
      const text = `(${technique.fret})`;
      const half = textWidth(text, 'number', size) / 2;
      const right = at + 2 * half + SIZES.openString;
      return { items: [figureAt(text, at + half, y, size, false)], right, letter: LETTERS.trill, opening: right };
    }
    case 'bend': {
      const tip = { x: at + 1.7, y: y - 2.2 };
      const curve: Item = {
        kind: 'path',
        steps: [
          ['M', at, y],
          ['C', at + 1.2, y, tip.x, y - 0.4, tip.x, tip.y + 0.8],
        ],
        ink: 'strong',
        thickness: 0.3,
      };
      const head = filled(
        'strong',
        ['M', tip.x, tip.y],
        ['L', tip.x + 0.6, tip.y + 1.2],
        ['L', tip.x - 0.6, tip.y + 1.2],
        ['Z'],
      );
      return { items: [curve, head], right: at + 2.4 };
    }
    case 'vibrato':
    case 'harmonic':
      return { items: [], right: at };
  }
}

/** A small wavy line along the page, 4 mm long. */
function ripple(
  x: number,
  y: number,
): readonly (readonly ['M', number, number] | readonly ['C', number, number, number, number, number, number])[] {
  const bump = (index: number): readonly ['C', number, number, number, number, number, number] => {
    const from = x + index * 1.3;
    const side = index % 2 === 0 ? -0.9 : 0.9;
    return ['C', from + 0.45, y + side, from + 0.85, y + side, from + 1.3, y];
  };
  return [['M', x, y], bump(0), bump(1), bump(2), bump(3)];
}
