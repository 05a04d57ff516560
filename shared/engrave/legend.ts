import { drawDiagram } from './chord-diagram.ts';
import { drawFingers } from './diagram-fingers.ts';
import { type Drawing, group, type Item, type PathStep } from './drawing.ts';
import { accentWedge, bow } from './outlines.ts';
import { SIZES } from './sizes.ts';
import { sameBarPiece } from './tab-bar-line.ts';
import { notePieces } from './tab-notes.ts';
import { type Piece, type Sign, type Staff, staffOf } from './tab-piece.ts';
import { restPiece } from './tab-rest.ts';
import { stemPiece } from './tab-rhythm.ts';
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

/** Signs of diagrams that a legend may have to explain. */
export type DiagramSign =
  | 'muted-string'
  | 'open-string'
  | 'position'
  | 'usual-shape'
  | 'barre'
  | 'given-finger'
  | 'suggested-finger';

export type LegendSign = Sign | DiagramSign;

/** One line of the legend: a sample, where the sign is a drawing, and what it means. */
export interface LegendLine {
  readonly sample?: Drawing;
  readonly text: string;
}

/** How much smaller a sample is than the sign on the sheet. */
const SAMPLE_SCALE = 0.62;

/** What the signs mean, in a fixed order, each sign once; those that explain one another stand together. */
export function legendOf(signs: ReadonlySet<LegendSign>, stringCount: number): readonly LegendLine[] {
  const staff = staffOf(stringCount);
  return (Object.keys(TEXTS) as LegendSign[])
    .filter((sign) => signs.has(sign))
    .map((sign) => {
      const sample = sampleOf(sign, staff);
      return { text: TEXTS[sign], ...(sample === undefined ? {} : { sample }) };
    });
}

const TEXTS: Readonly<Record<LegendSign, string>> = {
  'open-string': 'In a diagram, a ring: the string sounds open.',
  'muted-string': 'In a diagram, a cross: the string is not played. On the tab crosses are struck, but damped.',
  barre: 'In a diagram, a bar: one finger lies over several strings.',
  'given-finger': 'On a dot or bar, a bold number: the finger that the lesson gives, 1 index to 4 little finger.',
  'suggested-finger':
    'On a dot or bar, a slanted number: a suggested finger, 1 index to 4 little finger; the lesson gives none.',
  position: 'In a diagram, a number at the side: the fret of that row.',
  'usual-shape': 'Usual shape: the lesson gives none for this chord.',
  'assumed-name': 'Dashed line under a name: the usual shape, the lesson gives none.',
  'no-chord': 'N.C.: no chord.',
  'down-stroke':
    'D, arrow up the page: down-stroke, toward the floor, from the highest-numbered string to string 1, which is the top line.',
  'up-stroke': 'U, arrow down the page: up-stroke, from string 1 back.',
  'partial-stroke': 'Short arrow: only the strings that it crosses.',
  'slow-stroke': 'Wavy arrow: spread the stroke slowly.',
  'light-stroke': 'Thin dashed arrow, letter in brackets: barely touch the strings.',
  'damped-stroke': 'Crosses beside an arrow: the fretting hand lies on the strings, and the stroke sounds damped.',
  chunk: 'Large cross: chunk, the strumming hand stops its own stroke. It is heard.',
  roll: 'Fan: roll, one finger after another.',
  'shape-slide': 'Slanting lines: slide the whole shape.',
  'thumb-slap': 'Diamond: the thumb slaps this string and damps the chord.',
  palm: 'Upright hollow bar: the palm falls on the strings.',
  nails: 'Three scratches: the nails on the strings.',
  body: 'Ring with a point: knock on the body.',
  'stop-all': 'Rest: silence, all strings are stopped. A rest is not struck.',
  'stop-string': 'Small block: this string is stopped.',
  held: 'Bow from the left: the sound before goes on.',
  accent: 'Wedge over the staff: louder.',
  tune: 'Ringed bold number: the tune.',
  'hammer-on': 'h and a bow: hammer on to the small number.',
  'pull-off': 'p and a bow: pull off to the small number.',
  slide: 's and a slanting line: slide.',
  bend: 'Bent arrow: bend the string.',
  vibrato: 'Small wave: vibrato.',
  trill: 'tr: trill with the fret in brackets.',
  harmonic: 'Number in a diamond: harmonic.',
  'same-bar': 'Stroke between two dots: the bar before again.',
  'picking-fingers': 'p thumb, i index, m middle, a ring finger of the picking hand.',
  'rest-stroke': 'Roof beside the letter: rest stroke.',
  'left-hand-fingers':
    'Small numbers under the staff: fingers of the fretting hand, 1 index to 4 little finger, T thumb.',
  'half-note-stem':
    'A short stem: the sound lasts two quarters. A long stem alone is a quarter, with a flag or beam an eighth.',
  'whole-note': 'A number without a stem lasts the whole bar, four quarters.',
  tuplet:
    'A small number at a beam or bracket: so many even notes in the time of the next smaller usual number, 3 for 2.',
};

function sampleOf(sign: LegendSign, staff: Staff): Drawing | undefined {
  const whole = [1, staff.stringCount] as const;
  const plain = { slow: false, light: false, accent: false, strings: whole };
  const stroke = (look: object): Drawing =>
    onStaff(staff, strokeArrow(staff, { direction: 'down', ...plain, ...look }));
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
    case 'damped-stroke': {
      const strings = Array.from({ length: staff.stringCount }, (_, index) => index + 1);
      return onStaff(staff, [
        ...dampedHeads(staff, strings, -2.2).items,
        ...strokeArrow(staff, { direction: 'down', ...plain }),
      ]);
    }
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
      return ofPiece(staff, restPiece(staff, { value: 4, dots: 0 }, undefined));
    case 'stop-string':
      return ofPiece(staff, stringStops(staff, [2]));
    case 'same-bar':
      return ofPiece(staff, sameBarPiece(staff));
    case 'held':
      return alone(
        [{ kind: 'path', steps: bow(-3, 3, -0.5, -1.4), ink: 'strong', thickness: SIZES.slurThickness }],
        7,
        3,
      );
    case 'half-note-stem':
      return underStaff(staff, stemPiece('below', { kind: 'attack', value: 2, dots: 0 }, false));
    case 'accent':
      return alone([accentWedge(0, -1.2)], 4, 3);
    case 'tune': {
      const note = { string: 1, fret: 5, techniques: [], accent: false, restStroke: false };
      const [piece] = notePieces(staffOf(1), [{ note, look: 'ringed' }]);
      return piece === undefined ? undefined : alone([group(0, -1.9, piece.items)], 6, 4);
    }
    case 'position':
    case 'open-string':
    case 'muted-string':
    case 'barre':
      return diagramSample(sign);
    case 'given-finger':
    case 'suggested-finger':
      return alone(sampleDot(sign), 4, 3.4);
    case 'left-hand-fingers':
      return alone([figureAt('1', 0, -1.2, SIZES.small, false)], 3, 3);
    default:
      return undefined;
  }
}

/** A piece of staff with the sign on it; strings that the sign opens stay open. */
function ofPiece(staff: Staff, piece: Piece): Drawing {
  return onStaff(staff, piece.items, piece.openings);
}

/** A piece that hangs under the staff from a figure on the last string. */
function underStaff(staff: Staff, piece: Piece): Drawing {
  const last = staff.stringCount;
  const figure = figureAt('2', 0, staff.y(last), SIZES.fretNumber, false);
  const drawing = onStaff(
    staff,
    [figure, group(0, staff.height + SIZES.staffMargin, piece.items)],
    [{ string: last, left: -1.4, right: 1.4 }],
  );
  return { ...drawing, height: drawing.height + SIZES.rhythm.shortStem };
}

function onStaff(staff: Staff, items: readonly Item[], openings: Piece['openings'] = []): Drawing {
  const half = 4;
  const margin = 2;
  const steps: PathStep[] = [];
  for (let string = 1; string <= staff.stringCount; string++) {
    const y = staff.y(string);
    const open = openings.find((opening) => opening.string === string);
    if (open === undefined) steps.push(['M', -half, y], ['L', half, y]);
    else steps.push(['M', -half, y], ['L', open.left, y], ['M', open.right, y], ['L', half, y]);
  }
  const lines: Item = { kind: 'path', steps, ink: 'soft', thickness: SIZES.stringThickness };
  const width = 2 * half + 0.4;
  return {
    width,
    height: staff.height + 2 * margin,
    items: [group(width / 2, margin, [lines, ...items])],
    alternative: '',
    scale: SAMPLE_SCALE,
  };
}

/** A sign by itself, standing on the drawing's foot. */
function alone(items: readonly Item[], width: number, height: number): Drawing {
  return { width, height, items: [group(width / 2, height, items)], alternative: '', scale: 0.9 };
}

function sampleDot(sign: 'given-finger' | 'suggested-finger'): readonly Item[] {
  const press = { finger: 3, fret: 1, from: 0, to: 0, sounding: 1 } as const;
  const fingers =
    sign === 'given-finger' ? { fingers: [3] } : ({ fingering: { fingers: [3], presses: [press] } } as const);
  return drawFingers({ x: () => 0, y: () => -1.7 }, { shape: [1], ...fingers });
}

function diagramSample(sign: DiagramSign): Drawing {
  const shape =
    sign === 'position'
      ? [7, 7, 6, 6]
      : sign === 'muted-string'
        ? (['muted', 2, 3, 2] as const)
        : sign === 'open-string'
          ? [0, 2, 3, 2]
          : [2, 2, 2, 2];
  const fingers = sign === 'barre' ? [1, 1, 1, 1] : undefined;
  const drawing = drawDiagram({ shape, leftHanded: false, ...(fingers === undefined ? {} : { fingers }) });
  return { ...drawing, alternative: '', scale: SAMPLE_SCALE * 0.75 };
}
