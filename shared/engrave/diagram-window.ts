import type { Shape } from '../neck/shape.ts';
import { SIZES } from './sizes.ts';

/** The stretch of neck that a diagram shows. */
export interface DiagramWindow {
  /** The fret of the first row; 1 where the diagram begins at the nut. */
  readonly firstFret: number;
  readonly rows: number;
}

/** The highest fret that is still drawn from the nut. Common practice of four- and five-row chord charts, no source. */
const LAST_FRET_AT_NUT = 4;

/** From the nut where the shape lies near it, else from its lowest stopped fret. */
export function windowOf(shape: Shape): DiagramWindow {
  const stopped = shape.filter((fret): fret is number => fret !== 'muted' && fret > 0);
  const highest = Math.max(0, ...stopped);
  const lowest = Math.min(highest, ...stopped);
  if (highest <= LAST_FRET_AT_NUT) return { firstFret: 1, rows: SIZES.diagram.leastFrets };
  // One row more at the nut is easier to read than a number, while the shape still starts beside it.
  if (lowest <= 2 && highest <= LAST_FRET_AT_NUT + 1) return { firstFret: 1, rows: highest };
  return { firstFret: lowest, rows: Math.max(SIZES.diagram.leastFrets, highest - lowest + 1) };
}

/** One finger over several strings. `from` and `to` are chart-order indexes. */
export interface Barre {
  readonly finger: number | 'T';
  readonly fret: number;
  readonly from: number;
  readonly to: number;
}

/**
 * The barres that the fingers say: the same finger on one fret of several strings, with no string between them that is open,
 * muted or stopped lower, because the finger would stop it.
 */
export function barresOf(shape: Shape, fingers: readonly (number | 'T')[] | undefined): readonly Barre[] {
  if (fingers === undefined) return [];
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
