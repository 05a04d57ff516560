import { fingertipMm } from '../neck/fingertip.ts';
import type { Instrument } from '../neck/instrument.ts';
import type { Shape } from '../neck/shape.ts';
import { stringPitchAtFretMm } from '../neck/string-spacing.ts';
import type { HandModel } from './hand-model.ts';

/** A shape in millimetres: where tips press, for the hand that is to hold it. */
export interface HeldShape {
  readonly instrument: Instrument;
  readonly shape: Shape;
  readonly model: HandModel;
  /** Between neighbouring strings at the nut, or at the capo, which takes its place. Unit: mm. */
  readonly nutPitchMm: number;
  /** From the nut to the tip, by string in chart order; 0 where nothing is stopped. Unit: mm. */
  readonly tipMm: readonly number[];
  /** Between neighbouring strings at each string's fret. Unit: mm. */
  readonly pitchMm: readonly number[];
}

/** The capo is added here: it moves the whole shape up to narrower frets. */
export function heldShape(instrument: Instrument, shape: Shape, model: HandModel): HeldShape {
  const { scaleLengthMm, capoFret } = instrument;
  const nutPitchMm = stringPitchAtFretMm(instrument, capoFret);
  const tipMm: number[] = [];
  const pitchMm: number[] = [];
  for (const fret of shape) {
    const stopped = fret !== 'muted' && fret > 0;
    tipMm.push(stopped ? fingertipMm(scaleLengthMm, capoFret + fret) : 0);
    pitchMm.push(stopped ? stringPitchAtFretMm(instrument, capoFret + fret) : nutPitchMm);
  }
  return { instrument, shape, model, nutPitchMm, tipMm, pitchMm };
}
