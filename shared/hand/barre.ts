import type { Shape } from '../neck/shape.ts';
import { type Finger, fingerRow } from './finger.ts';
import type { HeldShape } from './held-shape.ts';

/** A string that a finger laid across it would spoil: it is to ring open, or is stopped at a lower fret, and would sound the barre. */
export interface SpoiledString {
  readonly kind: 'open' | 'lower';
  readonly stringIndex: number;
}

/** The first string under a finger laid across a fret that it would spoil; nothing where it may lie. Muted strings may lie under it. */
export function spoiledUnder(shape: Shape, fret: number, from: number, to: number): SpoiledString | undefined {
  for (let stringIndex = from; stringIndex <= to; stringIndex += 1) {
    const under = shape[stringIndex];
    if (under !== undefined && under !== 'muted' && under < fret) {
      return { kind: under === 0 ? 'open' : 'lower', stringIndex };
    }
  }
  return undefined;
}

/**
 * The string on string 1's side of a barre over which the finger must bend up again, because it comes from that side of the neck and
 * would spoil it. Nothing where the finger may lie flat.
 */
export function spoiledBeside(shape: Shape, fret: number, to: number): SpoiledString | undefined {
  return spoiledUnder(shape, fret, to + 1, shape.length - 1);
}

/**
 * True when the finger is long enough to lie across these strings. The board is measured at the nut or capo: a finger that lies across there
 * does so up the neck, where the strings stand a little wider, by lying aslant.
 */
export function covers(
  { shape, nutPitchMm, model }: HeldShape,
  finger: Finger,
  fret: number,
  from: number,
  to: number,
): boolean {
  if (from === to) return true;
  const cover = spoiledBeside(shape, fret, to) === undefined ? model.coverMm : model.liftedCoverMm;
  return (to - from) * nutPitchMm <= (cover[fingerRow(finger)] ?? 0);
}
