import type { Instrument } from '../../shared/neck/instrument.ts';
import { parseInstrument } from '../../shared/neck/instruments.ts';
import type { Shape } from '../../shared/neck/shape.ts';
import { readFrets } from '../../shared/neck/shape-reader.ts';
import { reading } from '../theory/reading.ts';

export const HIGH_G = instrument('tenor ukulele, high G');
export const LOW_G = instrument('tenor ukulele, low G');
export const BARITONE = instrument('baritone ukulele');

export function instrument(text: string): Instrument {
  return reading(parseInstrument(text));
}

export function shape(frets: string): Shape {
  return reading(readFrets(frets)).shape;
}
