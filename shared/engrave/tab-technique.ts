import type { Technique } from '../lesson/syntax/marks.ts';
import type { Item } from './drawing.ts';
import { bow, filled, ripple } from './outlines.ts';
import { SIZES } from './sizes.ts';
import type { Piece } from './tab-piece.ts';
import { FIGURE_HEIGHT_EM, textWidth } from './text-width.ts';

// What the fretting hand does to a note: signs beside its number, and letters or waves in the row over the staff.

/** A letter or wave over the staff and where it would best stand. */
export interface HandMark {
  readonly middle: number;
  readonly half: number;
  /** Drawn around 0. */
  readonly item: Item;
}

export interface DrawnTechnique {
  readonly items: readonly Item[];
  /** How far it reaches, counted from the note's middle. */
  readonly left: number;
  readonly right: number;
  readonly marks: readonly HandMark[];
  /** How far right the string line is left open from the note on. */
  readonly opening?: number;
}

/** How far a bow begins over the figure it comes from; a ring keeps it outside. Unit: mm. */
export const BOW_OVER_FIGURE_MM = 0.8;

/** Letters of the fretting hand's ways to sound a note. Common practice of tablature, no source. */
const LETTERS = { 'hammer-on': 'h', 'pull-off': 'p', slide: 's', trill: 'tr' } as const;

/** A fret number with its middle on the string. */
export function figureAt(text: string, x: number, y: number, size: number, bold: boolean): Item {
  const baseline = y + (size * FIGURE_HEIGHT_EM) / 2;
  const base = { kind: 'text', x, y: baseline, text, size, anchor: 'middle', role: 'number', ink: 'strong' } as const;
  return bold ? { ...base, bold: true } : base;
}

/** A technique that follows a struck note, from `at` rightwards on the string at `y`; `from` is the fret that the finger leaves. */
export function techniqueAfter(
  technique: Technique,
  at: number,
  y: number,
  bowOver: number,
  from: number,
): DrawnTechnique {
  const size = SIZES.arrivalNumber;
  switch (technique.kind) {
    case 'hammer-on':
    case 'pull-off': {
      const half = textWidth(String(technique.fret), 'number', size) / 2;
      const x = at + 1.1 + half;
      const arc = slur(at - bowOver, x, y);
      return arrivedAt(technique, x, half, [arc], at, y);
    }
    case 'slide': {
      const half = textWidth(String(technique.fret), 'number', size) / 2;
      return arrivedAt(technique, at + 2.3 + half, half, [glide(at + 0.2, y, technique.fret - from)], at, y);
    }
    case 'trill': {
      const text = `(${technique.fret})`;
      const half = textWidth(text, 'number', size) / 2;
      const right = at + 2 * half + SIZES.openString;
      const items = [figureAt(text, at + half, y, size, false)];
      return { items, left: 0, right, marks: [letter(LETTERS.trill, (at + right) / 2)], opening: right };
    }
    case 'bend': {
      const tip = { x: at + 1.7, y: y - 1.8 };
      const steps = [['M', at, y] as const, ['C', at + 1.2, y, tip.x, y - 0.4, tip.x, tip.y + 0.6] as const];
      const curve: Item = { kind: 'path', steps, ink: 'strong', thickness: 0.3 };
      const head = filled(
        'strong',
        ['M', tip.x, tip.y],
        ['L', tip.x + 0.6, tip.y + 1.2],
        ['L', tip.x - 0.6, tip.y + 1.2],
        ['Z'],
      );
      return { items: [curve, head], left: 0, right: at + 2.4, marks: [] };
    }
    case 'vibrato':
      return { items: [], left: 0, right: at, marks: [waveMark(at + 1.4)] };
    case 'harmonic':
      return { items: [], left: 0, right: at, marks: [] };
  }
}

/** White before a figure that a bow leads to, so that the bow has room beside a frame. Unit: mm. */
export const ROOM_FOR_BOW_MM = 0.6;

/**
 * A note that is not struck but reached, in a column of its own, from the note before, `rise` frets below it (negative: above). Bows
 * are drawn when the columns have their places.
 */
export function arrivalBefore(kind: Technique['kind'], open: number, y: number, rise: number): DrawnTechnique {
  switch (kind) {
    case 'hammer-on':
    case 'pull-off':
      return { items: [], left: open + ROOM_FOR_BOW_MM, right: 0, marks: [letter(LETTERS[kind], -1.6)] };
    case 'slide':
      return { items: [glide(-open - 1.9, y, rise)], left: open + 1.9, right: 0, marks: [letter(LETTERS.slide, -1.6)] };
    case 'trill':
      // Its sign stands with the note that it plays with.
      return { items: [], left: open + ROOM_FOR_BOW_MM, right: 0, marks: [] };
    case 'vibrato':
      return { items: [], left: open + ROOM_FOR_BOW_MM, right: 0, marks: [waveMark(0)] };
    case 'bend':
      return { ...techniqueAfter({ kind }, open, y, 0, 0), left: open + ROOM_FOR_BOW_MM };
    case 'harmonic':
      return { items: [], left: open, right: 0, marks: [] };
  }
}

/** Letters and waves of one moment side by side, none over another. */
export function markPiece(marks: readonly HandMark[]): Piece | undefined {
  const sorted = [...marks].sort((a, b) => a.middle - b.middle);
  const items: Item[] = [];
  let left = 0;
  let edge = Number.NEGATIVE_INFINITY;
  for (const { middle, half, item } of sorted) {
    const x = Math.max(middle, edge + SIZES.clearance.text + half);
    items.push({ kind: 'group', x, y: 0, items: [item] });
    left = Math.max(left, half - x);
    edge = x + half;
  }
  return items.length === 0 ? undefined : { row: 'mark', left, right: Math.max(0, edge), items };
}

function arrivedAt(
  technique: Extract<Technique, { readonly fret: number }>,
  x: number,
  half: number,
  items: readonly Item[],
  at: number,
  y: number,
): DrawnTechnique {
  const right = x + half + SIZES.openString;
  const figure = figureAt(String(technique.fret), x, y, SIZES.arrivalNumber, false);
  const marks = [letter(LETTERS[technique.kind], (at + right) / 2)];
  return { items: [...items, figure], left: 0, right, marks, opening: right };
}

/** From note to note over the string at `y`: clear of their figures, and of a figure on the next string. */
export function slur(from: number, to: number, y: number): Item {
  const { level, ...shape } = SIZES.slur;
  return { kind: 'path', steps: bow(from, to, y - level, shape), ink: 'strong' };
}

/** The way of the finger: up the page where the fret rises, down where it falls. */
function glide(x: number, y: number, rise: number): Item {
  const half = rise < 0 ? -0.8 : 0.8;
  return { kind: 'line', x1: x, y1: y + half, x2: x + 1.7, y2: y - half, thickness: 0.32, ink: 'strong' };
}

function letter(text: string, middle: number): HandMark {
  const size = SIZES.count;
  const item: Item = { kind: 'text', x: 0, y: 0, text, size, anchor: 'middle', role: 'count', ink: 'strong' };
  return { middle, half: textWidth(text, 'count', size) / 2, item };
}

function waveMark(middle: number): HandMark {
  const length = 5.2;
  const item: Item = { kind: 'path', steps: ripple(-length / 2, -0.9, length), ink: 'strong', thickness: 0.32 };
  return { middle, half: length / 2, item };
}
