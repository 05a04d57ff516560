import type { FingerMove, HandShift } from './change.ts';
import { HOVER_MM } from './change-table.ts';
import type { Finger } from './finger.ts';
import type { Press } from './fingering.ts';
import type { NeckInMm } from './neck-in-mm.ts';

/** What one finger does in a fingering, and where the hand is meanwhile. */
export interface FingerState {
  /** Absent where the finger does not press. */
  readonly press?: Press;
  /** The fret where the index finger is, or would be if it pressed; absent where no finger says where the hand is. */
  readonly positionFret?: number;
}

/** What a finger does from one fingering to another; nothing where it presses in neither. */
export function fingerMove(
  neck: NeckInMm,
  finger: Finger,
  before: FingerState,
  after: FingerState,
): FingerMove | undefined {
  const [from, to] = [before.press, after.press];
  if (from !== undefined && to !== undefined) return pressedMove(neck, from, to);
  if (to !== undefined) {
    const distanceMm = throughAirMm(neck, finger, to.fret, before.positionFret ?? after.positionFret);
    return { kind: 'lands', to, distanceMm, roomMm: targetMm(neck, to.fret) };
  }
  if (from === undefined) return undefined;
  const distanceMm = throughAirMm(neck, finger, from.fret, after.positionFret ?? before.positionFret);
  return { kind: 'lifts', from, distanceMm };
}

/** A finger that stays where it is, or in its fret, holds the whole hand there. The thumb does not. */
export function holdsHand(move: FingerMove): boolean {
  return (move.kind === 'stays' || move.kind === 'rolls') && move.to.finger !== 'T';
}

/** The whole hand along the neck; nothing where it keeps its place or has none. */
export function handShift(
  neck: NeckInMm,
  fromFret: number | undefined,
  toFret: number | undefined,
): HandShift | undefined {
  if (fromFret === undefined || toFret === undefined || fromFret === toFret) return undefined;
  const distanceMm = Math.abs(neck(toFret).tipMm - neck(fromFret).tipMm);
  return { fromFret, toFret, distanceMm, roomMm: neck(toFret).spaceMm };
}

function pressedMove(neck: NeckInMm, from: Press, to: Press): FingerMove {
  const sameStrings = from.from === to.from && from.to === to.to;
  if (sameStrings && from.fret === to.fret) return { kind: 'stays', from, to };
  const [here, there] = [neck(from.fret), neck(to.fret)];
  const alongMm = Math.abs(there.tipMm - here.tipMm);
  // Nobody lands beside the string while the finger keeps it, so that only the fret space has to be hit.
  if (sameStrings) return { kind: 'slides', from, to, distanceMm: alongMm, roomMm: there.spaceMm };
  const strings = Math.max(Math.abs(from.from - to.from), Math.abs(from.to - to.to));
  const distanceMm = Math.hypot(alongMm, strings * Math.max(here.pitchMm, there.pitchMm));
  const keepsString = from.fret === to.fret && from.from <= to.to && to.from <= from.to;
  return { kind: keepsString ? 'rolls' : 'moves', from, to, distanceMm, roomMm: targetMm(neck, to.fret) };
}

/** Between a pressing finger and the air over its own fret in a position. The thumb has no own fret: it only comes up and down. */
function throughAirMm(neck: NeckInMm, finger: Finger, fret: number, positionFret: number | undefined): number {
  if (finger === 'T' || positionFret === undefined) return HOVER_MM;
  return Math.hypot(HOVER_MM, neck(fret).tipMm - neck(positionFret + finger - 1).tipMm);
}

/** The finger must hit its string and its fret space. */
function targetMm(neck: NeckInMm, fret: number): number {
  const { spaceMm, pitchMm } = neck(fret);
  return Math.min(spaceMm, pitchMm);
}
