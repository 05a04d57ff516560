import type { Instrument } from '../../shared/neck/instrument.ts';
import type { Fret } from '../../shared/neck/shape.ts';
import { printShape, stringNumber } from '../../shared/neck/shape.ts';
import { judgeFit } from '../../shared/voicing/fit.ts';
import { shapesFor } from '../../shared/voicing/shapes.ts';
import type { LabelledShape } from './data-set.ts';
import { fingersNeeded, spanOf } from './holding.ts';

/** What becomes of a shape of the set: found, or why the finder need not find it under its label. */
export type Outcome =
  | 'found'
  | 'not found'
  | 'foreign note'
  | 'tone that makes the chord is missing'
  | 'beyond the limits';

function outcomeFor(on: Instrument, { label, frets }: LabelledShape): Outcome {
  const fit = judgeFit(on, frets, label);
  if (fit.foreign.length > 0) return 'foreign note';
  if (fit.verdict === 'does-not-fit' || fit.writtenBass === 'missing') return 'tone that makes the chord is missing';
  if (spanOf(frets) > 4 || fingersNeeded(frets) > 4) return 'beyond the limits';
  const strings = (wanted: (fret: Fret) => boolean) =>
    frets.flatMap((fret, at) => (wanted(fret) ? [stringNumber(at, frets.length)] : []));
  const stopped = frets.filter((fret): fret is number => fret !== 'muted' && fret > 0);
  const found = shapesFor(label, on, {
    max: Number.POSITIVE_INFINITY,
    within: [Math.min(...stopped), Math.max(...stopped)],
    ringOpen: strings((fret) => fret === 0),
    muted: strings((fret) => fret === 'muted'),
  });
  return found.some(({ shape }) => printShape(shape) === printShape(frets)) ? 'found' : 'not found';
}

/** How many shapes of a file have each outcome. */
export function finderOutcomes(
  on: Instrument,
  shapes: readonly LabelledShape[],
): Readonly<Partial<Record<Outcome, number>>> {
  const outcomes: Partial<Record<Outcome, number>> = {};
  for (const labelled of shapes) {
    const outcome = outcomeFor(on, labelled);
    outcomes[outcome] = (outcomes[outcome] ?? 0) + 1;
  }
  return outcomes;
}
