import type { Fingering } from '../hand/fingering.ts';
import type { Shape } from '../neck/shape.ts';
import { setRole } from './chord-name.ts';
import { group, type Item, type TextRole } from './drawing.ts';
import { SIZES } from './sizes.ts';
import { FIGURE_HEIGHT_EM } from './text-width.ts';

const D = SIZES.diagram;

/** A shape and what is known of the fingers that hold it. */
export interface FingeredShape {
  /** In chart order: highest-numbered string first. */
  readonly shape: Shape;
  /** The lesson's own fingers, in chart order; 0 for a string that no finger stops. */
  readonly fingers?: readonly (number | 'T')[];
  /** How the fingers lie: the lesson's own where it gives them, else a suggestion, which is drawn in another hand. */
  readonly fingering?: Pick<Fingering, 'fingers' | 'presses'>;
  /** False where the diagram is too small for finger numbers: then dots and bars alone are drawn. */
  readonly numbered?: boolean;
  /** What each sounding tone is in the chord, in chart order, where that is to stand on the dots in place of finger numbers. */
  readonly dotRoles?: readonly (string | undefined)[];
}

/** One finger over several strings. `from` and `to` are chart-order indexes. */
export interface Barre {
  readonly finger: number | 'T';
  readonly fret: number;
  readonly from: number;
  readonly to: number;
}

/**
 * What a diagram shows of the fingers: those that the lesson gives, as it gives them, else the way to hold the shape that is found
 * for the hand. A way that this hand cannot reach is no suggestion.
 */
export function fingersToShow(
  given: readonly (number | 'T')[] | undefined,
  fingering: Fingering | undefined,
): Pick<FingeredShape, 'fingers' | 'fingering'> {
  if (given === undefined) return fingering === undefined || fingering.verdict === 'out-of-reach' ? {} : { fingering };
  // Where the lesson's fingers cannot work, the fingering found is another one, and does not say how they lie.
  return { fingers: given, ...(fingering !== undefined && isHeldWith(fingering, given) ? { fingering } : {}) };
}

/** True when the fingering is the one that the lesson's fingers say, 0 standing for a string without one. */
export function isHeldWith({ fingers }: Fingering, given: readonly (number | 'T')[]): boolean {
  return given.length === fingers.length && fingers.every((finger, index) => (finger ?? 0) === given[index]);
}

/** The finger of each string in chart order, 0 for none; nothing where no finger is known. */
export function fingersShown({
  fingers,
  fingering,
}: Omit<FingeredShape, 'shape'>): readonly (number | 'T')[] | undefined {
  return fingers ?? fingering?.fingers.map((finger) => finger ?? 0);
}

/** True when the fingers are not the lesson's own and some finger is to be seen. */
export function isSuggested({ fingers, fingering }: Omit<FingeredShape, 'shape'>): boolean {
  return fingers === undefined && fingering !== undefined && fingering.presses.length > 0;
}

/** Fingers that lie over several strings, whole or half. */
export function barresOf(fingered: FingeredShape): readonly Barre[] {
  const { shape, fingers, fingering } = fingered;
  if (fingering !== undefined) return fingering.presses.filter(({ from, to }) => from < to);
  return fingers === undefined ? [] : barresSaid(shape, fingers);
}

/**
 * The barres that mere numbers say: the same finger on one fret of several strings, with no string between them that is open,
 * muted or stopped lower, because the finger would stop it.
 */
function barresSaid(shape: Shape, fingers: readonly (number | 'T')[]): readonly Barre[] {
  const barres: Barre[] = [];
  for (const finger of new Set(fingers)) {
    if (finger === 0) continue;
    const covered = shape.flatMap((fret, index) =>
      fingers[index] === finger && fret !== 'muted' && fret > 0 ? [{ fret, index }] : [],
    );
    const [first] = covered;
    const last = covered.at(-1);
    if (first === undefined || last === undefined || first === last) continue;
    const { fret } = first;
    const between = shape.slice(first.index, last.index + 1);
    const possible =
      covered.every((one) => one.fret === fret) && between.every((one) => one !== 'muted' && one >= fret);
    if (possible) barres.push({ finger, fret, from: first.index, to: last.index });
  }
  return barres;
}

/** Where a diagram has its strings, by place in chart order, and the middle of each fret's row. Unit: mm. */
interface Places {
  readonly x: (index: number) => number;
  readonly y: (fret: number) => number;
}

/** Dots and bars with their finger numbers. */
export function drawFingers({ x, y }: Places, fingered: FingeredShape): readonly Item[] {
  const { shape, numbered = true, dotRoles } = fingered;
  const fingers = fingersShown(fingered);
  const barres = barresOf(fingered);
  const suggested = isSuggested(fingered);
  const underBarre = (index: number, fret: number): boolean =>
    barres.some((barre) => barre.fret === fret && index >= barre.from && index <= barre.to);
  const items: Item[] = [];
  for (const barre of barres) {
    const [x1, x2] = [x(barre.from), x(barre.to)].sort((a, b) => a - b);
    if (x1 === undefined || x2 === undefined) continue;
    const height = D.barreThickness;
    items.push({
      kind: 'rectangle',
      x: x1 - height / 2,
      y: y(barre.fret) - height / 2,
      width: x2 - x1 + height,
      height,
      rounding: height / 2,
      ink: 'strong',
    });
    if (numbered && dotRoles === undefined)
      items.push(fingerText((x1 + x2) / 2, y(barre.fret), barre.finger, suggested));
  }
  shape.forEach((fret, index) => {
    if (fret === 'muted' || fret === 0 || underBarre(index, fret)) return;
    items.push({ kind: 'circle', x: x(index), y: y(fret), radius: D.dotRadius, ink: 'strong' });
    if (dotRoles !== undefined) return;
    const finger = fingers?.[index];
    if (numbered && finger !== undefined && finger !== 0) items.push(fingerText(x(index), y(fret), finger, suggested));
  });
  dotRoles?.forEach((role, index) => {
    const fret = shape[index];
    if (role === undefined || fret === undefined || fret === 'muted' || fret === 0) return;
    const set = setRole(role, D.dotRole, 'paper');
    items.push(group(x(index) - set.width / 2, y(fret) + D.dotRole * CAPITAL_MIDDLE_EM, set.items));
  });
  return items;
}

/** Half the height of a figure, by which its baseline lies under its middle. Unit: em. */
const CAPITAL_MIDDLE_EM = FIGURE_HEIGHT_EM / 2;

/** The lesson's numbers stand upright and bold; a suggestion is written in the slanted face, so that the two differ without colour. */
function fingerText(x: number, y: number, finger: number | 'T', suggested: boolean): Item {
  const size = D.finger;
  const role: TextRole = suggested ? 'count' : 'number';
  return {
    kind: 'text',
    x,
    y: y + (size * FIGURE_HEIGHT_EM) / 2,
    text: String(finger),
    size,
    anchor: 'middle',
    role,
    ink: 'paper',
    ...(suggested ? {} : { bold: true }),
  };
}
