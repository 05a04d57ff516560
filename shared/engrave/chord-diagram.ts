import { type Shape, stringNumber } from '../neck/shape.ts';
import { setChordName, setRole, spokenChordName } from './chord-name.ts';
import { barresOf, drawFingers, type FingeredShape, fingersShown, isSuggested } from './diagram-fingers.ts';
import { type DiagramWindow, windowOf } from './diagram-window.ts';
import { type Drawing, group, type Item, line } from './drawing.ts';
import { cross } from './outlines.ts';
import { SIZES } from './sizes.ts';
import { FIGURE_HEIGHT_EM, textWidth } from './text-width.ts';

export interface DiagramRequest extends FingeredShape {
  /** Absent for a bare shape. */
  readonly name?: string;
  readonly leftHanded: boolean;
  /** What the lesson calls the chord, so that its diagram can be marked while it sounds. */
  readonly held?: string;
  /** Roles of the sounding tones in chart order, printed under the strings: `1`, `♭3`. */
  readonly roles?: readonly (string | undefined)[];
  /** True where the lesson gives no shape and the usual one is drawn. */
  readonly assumed?: boolean;
  /** A few words under the name, such as the label of a further shape. */
  readonly caption?: string;
  /** True within a line of prose, which it had better not drive apart: it need not look like others beside it. */
  readonly inLine?: boolean;
}

/** What stands over the grid, for one diagram or for all of a row, whose grids are to begin at one height. */
export interface DiagramHeader {
  readonly name: boolean;
  readonly caption: boolean;
}

const D = SIZES.diagram;

export function headerOf(requests: readonly DiagramRequest[]): DiagramHeader {
  return {
    name: requests.some((request) => request.name !== undefined),
    caption: requests.some((request) => request.caption !== undefined),
  };
}

/** Where the grid begins under what stands over it. Unit: mm. */
export function gridTop(header: DiagramHeader): number {
  return (header.name ? D.name * 1.02 : 0) + (header.caption ? D.caption * 1.15 : 0) + 2 * D.signRadius + 2.1;
}

/** Where the strings and frets of one diagram lie. */
interface Grid {
  readonly stringCount: number;
  readonly window: DiagramWindow;
  /** Size of the number of the first fret. */
  readonly positionSize: number;
  readonly left: number;
  readonly top: number;
  readonly bottom: number;
  /** Where the string of a chart-order index is drawn. */
  readonly x: (index: number) => number;
  /** The middle of a fret's row. */
  readonly y: (fret: number) => number;
}

/**
 * One chord diagram, strings upright, the nut on top. Left-handed: the mirror image, while all numbers stay readable.
 * Its text alternative names every string from the highest-numbered down.
 */
export function drawDiagram(request: DiagramRequest, header: DiagramHeader = headerOf([request])): Drawing {
  const { shape, name, caption } = request;
  const window = windowOf(shape, request.inLine === true ? D.inLine.leastFrets : D.leastFrets);
  const positionSize = request.inLine === true ? D.inLine.position : D.position;
  const nameLine = name === undefined ? undefined : setChordName(name, D.name);
  const gridWidth = (shape.length - 1) * D.stringGap;
  const positionWidth = window.firstFret === 1 ? 0 : textWidth(String(window.firstFret), 'number', positionSize) + 1.1;
  const margin = D.dotRadius + (request.inLine === true ? D.inLine.margin : 0.3);
  const notes = notesUnder(request);
  // The grid stays in the middle, so that names stand over it and rows of diagrams look even.
  const half = Math.max(
    gridWidth / 2 + Math.max(margin, positionWidth + (positionWidth > 0 ? D.dotRadius : 0)),
    (nameLine?.width ?? 0) / 2,
    ...[caption ?? '', ...notes].map((text) => textWidth(text, 'count', D.caption) / 2),
  );
  const middle = half;
  const wide = request.inLine === true && notes.length === 0 ? half + gridWidth / 2 + margin : 2 * half;
  const nameHeight = header.name ? D.name * 1.02 : 0;
  const top = gridTop(header);
  const bottom = top + window.rows * D.fretGap;
  const left = middle - gridWidth / 2;
  const grid: Grid = {
    stringCount: shape.length,
    window,
    positionSize,
    left,
    top,
    bottom,
    x: (index) => left + (request.leftHanded ? shape.length - 1 - index : index) * D.stringGap,
    y: (fret) => top + (fret - window.firstFret + 0.5) * D.fretGap,
  };
  const items: Item[] = [];
  if (nameLine !== undefined && name !== undefined) {
    items.push({ ...group(middle - nameLine.width / 2, D.name * 0.86, nameLine.items), spelled: name });
  }
  if (caption !== undefined) items.push(smallText(caption, middle, nameHeight + D.caption * 0.8));
  items.push(...drawGrid(grid), ...drawSigns(grid, shape), ...drawFingers(grid, request));
  const rolesHeight = drawRoles(grid, request, items);
  notes.forEach((text, index) => {
    items.push(smallText(text, middle, bottom + rolesHeight + D.caption * (1.15 + index * 1.15)));
  });
  const height = bottom + rolesHeight + notes.length * D.caption * 1.15 + 0.9;
  return { width: wide, height, items, alternative: describeDiagram(request), scale: 1 };
}

/** The sentence that stands for a diagram: `Em: string 4 open, string 3 fret 4 ring finger, …` */
export function describeDiagram(request: DiagramRequest): string {
  const { shape, name, caption, dotRoles } = request;
  const fingers = fingersShown(request);
  const strings = shape.map((fret, index) => {
    const string = `string ${stringNumber(index, shape.length)}`;
    if (fret === 'muted') return `${string} not played`;
    const role = dotRoles?.[index];
    const tone = role === undefined ? '' : `, the ${spokenRole(role)}`;
    if (fret === 0) return `${string} open${tone}`;
    const finger = fingers?.[index];
    return `${string} fret ${fret}${finger === undefined || finger === 0 ? '' : ` ${fingerName(finger)}`}${tone}`;
  });
  const barres = barresOf(request).map(
    ({ finger, fret, from, to }) =>
      `${fingerName(finger)} across strings ${stringNumber(from, shape.length)} to ${stringNumber(to, shape.length)} at fret ${fret}`,
  );
  const spoken = name === undefined ? 'Shape' : spokenChordName(name);
  const head = caption === undefined ? spoken : `${spoken}, ${caption}`;
  const usual = request.assumed === true ? ' This is the usual shape; the lesson gives none.' : '';
  const suggested = isSuggested(request) ? ' The fingers are a suggestion; the lesson gives none.' : '';
  return `${head}: ${[...strings, ...barres].join(', ')}.${usual}${suggested}`;
}

function spokenRole(role: string): string {
  if (role === '1') return 'root';
  return role
    .replace(/[♭b]+/u, (signs) => 'flat '.repeat(signs.length))
    .replace(/[♯#]+/u, (signs) => 'sharp '.repeat(signs.length));
}

/** Left-hand fingers are numbered from the index finger. Source: SMuFL 1.4, Fingering range (fingering1 is the index finger of a fretting hand). */
function fingerName(finger: number | 'T'): string {
  if (finger === 'T') return 'thumb';
  return ['no finger', 'index finger', 'middle finger', 'ring finger', 'little finger'][finger] ?? `finger ${finger}`;
}

function notesUnder(request: DiagramRequest): readonly string[] {
  return request.assumed === true ? ['usual shape'] : [];
}

function drawGrid(grid: Grid): readonly Item[] {
  const { left, top, bottom, window, stringCount } = grid;
  const right = left + (stringCount - 1) * D.stringGap;
  const half = D.stringThickness / 2;
  const atNut = window.firstFret === 1;
  const items: Item[] = [];
  for (let row = atNut ? 1 : 0; row <= window.rows; row++) {
    const y = top + row * D.fretGap;
    items.push(line(left - half, y, right + half, y, D.fretThickness, 'soft'));
  }
  for (let index = 0; index < stringCount; index++) {
    // Away from the nut the neck goes on upwards, and the strings show it.
    items.push(
      line(
        grid.x(index),
        atNut ? top : top - 0.9,
        grid.x(index),
        bottom + (atNut ? 0 : 0.9),
        D.stringThickness,
        'soft',
      ),
    );
  }
  if (atNut) {
    items.push({
      kind: 'rectangle',
      x: left - half,
      y: top - D.nutThickness,
      width: right - left + 2 * half,
      height: D.nutThickness,
      rounding: 0,
      ink: 'strong',
    });
  } else {
    const size = grid.positionSize;
    items.push({
      kind: 'text',
      x: left - D.dotRadius - 0.5,
      y: grid.y(window.firstFret) + (size * FIGURE_HEIGHT_EM) / 2,
      text: String(window.firstFret),
      size,
      anchor: 'end',
      role: 'number',
      ink: 'strong',
    });
  }
  return items;
}

function drawSigns(grid: Grid, shape: Shape): readonly Item[] {
  const y = grid.top - D.nutThickness - 0.75 - D.signRadius;
  return shape.flatMap((fret, index): readonly Item[] => {
    if (fret === 'muted') return [cross(grid.x(index), y, D.signRadius * 0.92, 0.34, 'strong')];
    if (fret === 0)
      return [{ kind: 'circle', x: grid.x(index), y, radius: D.signRadius, ink: 'strong', thickness: 0.28 }];
    return [];
  });
}

/** Adds the roles to the items and returns the height of their row. */
function drawRoles(grid: Grid, { roles, dotRoles, shape }: DiagramRequest, items: Item[]): number {
  // A string that no finger stops has no dot to write on.
  const under = roles ?? dotRoles?.map((role, index) => (shape[index] === 0 ? role : undefined));
  if (under === undefined || under.every((role) => role === undefined)) return 0;
  const height = D.role * 1.3;
  under.forEach((role, index) => {
    if (role === undefined) return;
    const set = setRole(role, D.role, 'strong');
    items.push(group(grid.x(index) - set.width / 2, grid.bottom + height * 0.95, set.items));
  });
  return height;
}

function smallText(text: string, x: number, y: number): Item {
  return { kind: 'text', x, y, text, size: D.caption, anchor: 'middle', role: 'count', ink: 'soft' };
}
