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

/** From the nut where the shape lies near it, else from its lowest stopped fret; no fewer frets than asked for. */
export function windowOf(shape: Shape, least: number = SIZES.diagram.leastFrets): DiagramWindow {
  const stopped = shape.filter((fret): fret is number => fret !== 'muted' && fret > 0);
  const highest = Math.max(0, ...stopped);
  const lowest = Math.min(highest, ...stopped);
  if (highest <= LAST_FRET_AT_NUT) return { firstFret: 1, rows: Math.max(least, highest) };
  // One row more at the nut is easier to read than a number, while the shape still starts beside it.
  if (lowest <= 2 && highest <= LAST_FRET_AT_NUT + 1) return { firstFret: 1, rows: highest };
  return { firstFret: lowest, rows: Math.max(least, highest - lowest + 1) };
}
