import type { Item } from '../../../shared/engrave/drawing.ts';
import { SIZES } from '../../../shared/engrave/sizes.ts';
import type { Inked } from './inked.ts';
import type { Overlap } from './overlaps.ts';

/** What an item is, as far as its looks tell. */
export function nameOf({ item, groups }: Inked): string {
  const isOnStem = groups.some(({ items }) => items.some(isStem));
  switch (item.kind) {
    case 'text':
      return `${item.role} text`;
    case 'line':
      if (item.thickness === SIZES.rhythm.stemThickness && item.x1 === item.x2) return 'stem';
      if (item.thickness === SIZES.barLineThickness && groups.length === 0) return 'ending bracket';
      if (item.thickness === SIZES.heavyLineThickness || item.thickness === SIZES.barLineThickness) return 'bar line';
      return 'stroke';
    case 'rectangle':
      if (item.height === SIZES.rhythm.beam) return 'beam';
      return item.thickness === undefined ? 'block' : 'frame';
    case 'circle':
      return isOnStem ? 'dot of a note' : 'ring or dot';
    case 'path':
      if (item.ink === 'soft' && item.thickness === SIZES.stringThickness) return 'string line';
      if (item.thickness === SIZES.rhythm.bracketThickness) return 'tuplet bracket';
      if (item.thickness !== undefined) return 'stroke';
      if (isOnStem) return 'flag';
      return item.steps.map(([kind]) => kind).join('') === 'MCCZ' ? 'tie' : 'filled sign';
  }
}

function isStem(item: Item): boolean {
  return item.kind === 'line' && item.thickness === SIZES.rhythm.stemThickness;
}

/** Things beside the staff, which no string may reach. */
const BESIDE_STAFF = new Set(['stem', 'beam', 'flag', 'tie', 'tuplet bracket', 'dot of a note', 'ending bracket']);

interface Allowance {
  readonly name: string;
  /** Why it is as it should be. */
  readonly reason: string;
  readonly holds: (a: Inked, b: Inked, depth: number) => boolean;
}

/** All that may share ink in a line of music. */
export const ALLOWED: readonly Allowance[] = [
  {
    name: 'parts of one sign',
    reason: 'A shaft and its head, the two strokes of a cross, a dot on its grid are drawn together as one sign.',
    holds: (a, b) =>
      sameGroup(a, b) &&
      ![a, b].some((one) => one.item.kind === 'text' || ['beam', 'tie', 'tuplet bracket'].includes(nameOf(one))),
  },
  {
    name: 'string line under a sign',
    reason:
      'The strings are the ground that strokes, bar lines, bows and frames lie on. Figures and letters leave them open.',
    holds: oneEach('string line', (other) => other.item.kind !== 'text' && !BESIDE_STAFF.has(nameOf(other))),
  },
  {
    name: 'stem in its beam',
    reason: 'A stem ends in the beam that joins it to its neighbours.',
    holds: oneEach('beam', (other) => nameOf(other) === 'stem'),
  },
  {
    name: 'figure in its ring or diamond',
    reason: 'The corners of a figure’s box reach into the frame around it where the figure itself has no ink.',
    holds: (a, b, depth) =>
      sameGroup(a, b) &&
      depth < 0.2 &&
      oneEach('number text', (other) => ['frame', 'stroke'].includes(nameOf(other)))(a, b),
  },
  {
    name: 'corner of an ending',
    reason: 'The bracket over an ending is drawn as its top and its hooks, which meet.',
    holds: (a, b) => nameOf(a) === 'ending bracket' && nameOf(b) === 'ending bracket',
  },
];

/**
 * What still lies over something and should not, each with where it comes from. Nothing may be added here; when one is mended its
 * entry goes.
 */
export const TO_MEND: readonly Allowance[] = [];

/** Drawn by one hand: in one group, or one in a group within the other's. */
function sameGroup(a: Inked, b: Inked): boolean {
  const inner = a.groups.at(-1);
  if (inner !== undefined && inner === b.groups.at(-1)) return true;
  const [shallow, deep] = a.groups.length < b.groups.length ? [a, b] : [b, a];
  const outer = shallow.groups.at(-1);
  return outer !== undefined && outer.mark === undefined && deep.groups.includes(outer);
}

function oneEach(name: string, isOther: (other: Inked) => boolean): (a: Inked, b: Inked) => boolean {
  return (a, b) => (nameOf(a) === name && isOther(b)) || (nameOf(b) === name && isOther(a));
}

/** The first of the allowances that an overlap falls under. */
export function allowanceOf({ a, b, depth }: Overlap, among: readonly Allowance[]): Allowance | undefined {
  return among.find(({ holds }) => holds(a, b, depth));
}

/** All that may share ink in a chord diagram. */
export const ALLOWED_IN_DIAGRAMS: readonly Allowance[] = [
  {
    name: 'grid, nut, dots and bars',
    reason: 'Strings and frets cross, the nut lies on them, and fingers are put down on them.',
    holds: (a, b) => [a, b].every(isGridOrOnIt) && [a, b].some(isGrid),
  },
  {
    name: 'parts of one accidental',
    reason: 'The stems of a sharp cross its bars.',
    holds: (a, b) => sameGroup(a, b) && [a, b].every(({ item }) => item.kind === 'path'),
  },
  {
    name: 'number on its dot or bar',
    reason: 'The number of the finger is printed in paper on the ink of its dot, which covers the grid.',
    holds: (a, b) =>
      [a, b].some(({ item }) => item.ink === 'paper') &&
      [a, b].some((one) => one.item.kind !== 'text' && isGridOrOnIt(one)),
  },
];

function isGrid({ item }: Inked): boolean {
  return (item.kind === 'line' && item.ink === 'soft') || (item.kind === 'rectangle' && item.rounding === 0);
}

function isGridOrOnIt(one: Inked): boolean {
  const { item } = one;
  return isGrid(one) || item.kind === 'circle' || (item.kind === 'rectangle' && item.rounding > 0);
}

/** `stem over number text 12 by 0.4 mm at 31.2 14.0` */
export function tellOverlap({ a, b, depth }: Overlap): string {
  const tell = (one: Inked): string => (one.item.kind === 'text' ? `${nameOf(one)} ${one.item.text}` : nameOf(one));
  const [first, second] = [a, b].sort((x, y) => (nameOf(x) < nameOf(y) ? -1 : 1));
  if (first === undefined || second === undefined) return '';
  const x = Math.max(first.box.x, second.box.x);
  const y = Math.max(first.box.y, second.box.y);
  return `${tell(first)} and ${tell(second)} by ${depth.toFixed(2)} mm at ${x.toFixed(1)} ${y.toFixed(1)}`;
}
