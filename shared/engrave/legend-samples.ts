import type { Technique } from '../lesson/syntax/marks.ts';
import type { ScoreNote } from '../score/timeline.ts';
import { type Drawing, group, type Item, type PathStep } from './drawing.ts';
import { letterSample } from './legend-letters.ts';
import { accentWedge } from './outlines.ts';
import { SIZES } from './sizes.ts';
import { sameBarPiece } from './tab-bar-line.ts';
import { handPieces } from './tab-hand.ts';
import { notePieces, type PlacedNote } from './tab-notes.ts';
import { type Piece, type Sign, type Staff, staffOf } from './tab-piece.ts';
import { restOnStaff } from './tab-rest.ts';
import { beamItems, stemPiece, TIE_ARRIVES_MM, tieItem, tupletItems } from './tab-rhythm.ts';
import {
  bodySign,
  chunkSign,
  dampedHeads,
  nailsSign,
  palmSign,
  rollSign,
  shapeSlideSign,
  stringStops,
  strokeArrow,
  thumbSlapSign,
} from './tab-signs.ts';
import { figureAt } from './tab-technique.ts';

/** More strings than this say no more of a sign, and would have to be drawn smaller to find room beside the words. */
const MOST_STRINGS = 4;

/** A sign of the tab as large as on the sheet, on as many strings of its staff as it takes to know it again. */
export function tabSample(sign: Sign, stringCount: number): Drawing | undefined {
  const staff = staffOf(Math.min(stringCount, MOST_STRINGS));
  const whole = [1, staff.stringCount] as const;
  const stroke = (look: Partial<Parameters<typeof strokeArrow>[1]>): Drawing =>
    onStaff(
      staff,
      strokeArrow(staff, { direction: 'down', slow: false, light: false, accent: false, strings: whole, ...look }),
    );
  switch (sign) {
    case 'down-stroke':
      return stroke({});
    case 'up-stroke':
      return stroke({ direction: 'up' });
    case 'partial-stroke':
      return stroke({ strings: [Math.max(1, staff.stringCount - 1), staff.stringCount] });
    case 'slow-stroke':
      return stroke({ slow: true });
    case 'light-stroke':
      return stroke({ light: true, direction: 'up' });
    case 'damped-stroke':
      return dampedSample(staff);
    case 'chunk':
      return ofPiece(staff, chunkSign(staff));
    case 'roll':
      return ofPiece(staff, rollSign(staff));
    case 'shape-slide':
      return ofPiece(staff, shapeSlideSign(staff));
    case 'thumb-slap':
      return ofPiece(staff, thumbSlapSign(staff, staff.stringCount));
    case 'palm':
      return ofPiece(staff, palmSign(staff));
    case 'nails':
      return ofPiece(staff, nailsSign(staff));
    case 'body':
      return ofPiece(staff, bodySign(staff));
    case 'stop-all':
      return ofPiece(staff, restOnStaff(staff, { value: 4, dots: 0 }));
    case 'stop-string':
      return ofPiece(staff, stringStops(staff, [2]));
    case 'same-bar':
      return ofPiece(staff, sameBarPiece(staff));
    case 'hammer-on':
      return onOneString({ kind: 'hammer-on', fret: 7 });
    case 'pull-off':
      return onOneString({ kind: 'pull-off', fret: 3 });
    case 'slide':
      return onOneString({ kind: 'slide', fret: 7 });
    case 'trill':
      return onOneString({ kind: 'trill', fret: 7 });
    case 'bend':
    case 'vibrato':
    case 'harmonic':
      return onOneString({ kind: sign });
    case 'tune':
      return onOneString(undefined, 'ringed');
    case 'accent':
      return alone([accentWedge(0, -1)], 3, 2);
    case 'rest-stroke':
      return restStrokeSample();
    case 'left-hand-fingers':
      return alone([figureAt('1', 0, -1.2, SIZES.small, false)], 3, 2.4);
    case 'held':
    case 'half-note-stem':
    case 'whole-note':
    case 'tuplet':
      return rhythmSample(sign);
    case 'picking-fingers':
    case 'assumed-name':
    case 'no-chord':
    case 'pattern-start':
      return letterSample(sign);
  }
}

/** From the middle of a sample on the staff to its edge. Unit: mm. */
const HALF_STAFF_MM = 4;

/** Room over the first string and under the last one, which signs reach into. Unit: mm. */
const STAFF_EDGE_MM = 1.5;

/** A piece of staff with the sign on it; strings that the sign opens stay open. */
function ofPiece(staff: Staff, piece: Piece): Drawing {
  return onStaff(staff, piece.items, piece.openings);
}

function dampedSample(staff: Staff): Drawing {
  const strings = Array.from({ length: staff.stringCount }, (_, index) => index + 1);
  const { items, openings } = dampedHeads(staff, strings, -2.2);
  const look = {
    direction: 'down',
    slow: false,
    light: false,
    accent: false,
    strings: [1, staff.stringCount],
  } as const;
  return onStaff(staff, [...items, ...strokeArrow(staff, look)], openings);
}

function onStaff(staff: Staff, items: readonly Item[], openings: Piece['openings'] = []): Drawing {
  const width = 2 * HALF_STAFF_MM;
  return {
    width,
    height: staff.height + 2 * STAFF_EDGE_MM,
    items: [group(width / 2, STAFF_EDGE_MM, [stringsOf(staff, -HALF_STAFF_MM, HALF_STAFF_MM, openings), ...items])],
    alternative: '',
    scale: 1,
  };
}

function stringsOf(staff: Staff, left: number, right: number, openings: Piece['openings'] = []): Item {
  const steps: PathStep[] = [];
  for (let string = 1; string <= staff.stringCount; string++) {
    const y = staff.y(string);
    let x = left;
    for (const open of openings.filter((opening) => opening.string === string).sort((a, b) => a.left - b.left)) {
      if (open.left > x) steps.push(['M', x, y], ['L', open.left, y]);
      x = Math.max(x, open.right);
    }
    if (right > x) steps.push(['M', x, y], ['L', right, y]);
  }
  return { kind: 'path', steps, ink: 'soft', thickness: SIZES.stringThickness };
}

/** A note on a string by itself, with the letters of what the left hand does over it. */
function onOneString(technique: Technique | undefined, look: PlacedNote['look'] = 'plain'): Drawing {
  const staff = staffOf(1);
  const techniques = technique === undefined ? [] : [technique];
  const note: ScoreNote = { string: 1, fret: 5, techniques, accent: false, restStroke: false };
  const pieces = notePieces(staff, [{ note, look }]);
  const end = 1.2;
  const left = Math.max(...pieces.map((piece) => piece.left)) + end;
  const right = Math.max(...pieces.map((piece) => piece.right)) + end;
  const marked = pieces.some(({ row }) => row === 'mark');
  const top = (marked ? MARK_ROW_MM : 0) + ABOVE_STRING_MM;
  const items = pieces.map((piece) =>
    piece.row === 'mark' ? group(0, -ABOVE_STRING_MM, piece.items) : group(0, 0, piece.items),
  );
  const openings = pieces.flatMap((piece) => piece.openings ?? []);
  return {
    width: left + right,
    height: top + BELOW_STRING_MM,
    items: [group(left, top, [stringsOf(staff, -left, right, openings), ...items])],
    alternative: '',
    scale: 1,
  };
}

const MARK_ROW_MM = 2.6;
/** Room over the string for a bow or the tip of a bend. */
const ABOVE_STRING_MM = 3.4;
const BELOW_STRING_MM = 2.3;

/** Stems under a staff of one string, as they hang under the last one. */
function rhythmSample(sign: 'held' | 'half-note-stem' | 'whole-note' | 'tuplet'): Drawing {
  const stem = (x: number, value: 1 | 2 | 4 | 8, kind: 'attack' | 'tied' = 'attack'): Item =>
    group(x, 0, stemPiece('below', { kind, value, dots: 0 }, value === 8).items);
  switch (sign) {
    case 'half-note-stem':
      return underString([0], [stem(0, 2)], SIZES.rhythm.shortStem);
    case 'whole-note':
      return underString([0], [], 0);
    case 'held': {
      const tie = tieItem('below', -4 + SIZES.rhythm.tieGap, 4 + TIE_ARRIVES_MM);
      return underString([-4], [stem(-4, 4), stem(4, 4, 'tied'), tie], SIZES.rhythm.stem, 4);
    }
    case 'tuplet': {
      const xs = [-4, 0, 4];
      const at = (entry: number): number => xs[entry] ?? 0;
      const beam = { first: 0, last: 2, segments: [] };
      const tuplet = { first: 0, last: 2, count: 3, inTimeOf: 2, bracket: false };
      const spans = [...beamItems('below', [beam], at), ...tupletItems('below', [tuplet], at)];
      return underString(
        xs,
        [...xs.map((x) => stem(x, 8)), ...spans],
        SIZES.rhythm.stem + SIZES.rhythm.beyondTuplet,
        4,
      );
    }
  }
}

function underString(figures: readonly number[], items: readonly Item[], depth: number, reach = 0): Drawing {
  const staff = staffOf(1);
  const half = reach + 2.6;
  const top = 1.6;
  const numbers = figures.map((x) => figureAt('2', x, 0, SIZES.fretNumber, false));
  const openings = figures.map((x) => ({ string: 1, left: x - 1.5, right: x + 1.5 }));
  return {
    width: 2 * half,
    height: top + SIZES.staffMargin + depth + 0.2,
    items: [
      group(half, top, [stringsOf(staff, -half, half, openings), ...numbers, group(0, SIZES.staffMargin, items)]),
    ],
    alternative: '',
    scale: 1,
  };
}

function restStrokeSample(): Drawing | undefined {
  const note: ScoreNote = { string: 1, fret: 0, finger: 'i', techniques: [], accent: false, restStroke: true };
  const [piece] = handPieces([{ note, look: 'plain' }]);
  if (piece === undefined) return undefined;
  const width = piece.left + piece.right + 0.6;
  return {
    width,
    height: 3.2,
    items: [group(piece.left + 0.3, 2.6, piece.items)],
    alternative: '',
    scale: 1,
  };
}

/** A sign by itself, standing on the drawing's foot. */
function alone(items: readonly Item[], width: number, height: number): Drawing {
  return { width, height, items: [group(width / 2, height, items)], alternative: '', scale: 1 };
}
