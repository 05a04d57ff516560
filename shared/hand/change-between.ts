import { fingertipMm } from '../neck/fingertip.ts';
import { fretDistanceMm } from '../neck/fret-positions.ts';
import type { Instrument } from '../neck/instrument.ts';
import { stringPitchAtFretMm } from '../neck/string-spacing.ts';
import type { Change, FingerMove, HandShift } from './change.ts';
import { changeCost } from './change-cost.ts';
import { HOVER_MM } from './change-table.ts';
import type { Finger } from './finger.ts';
import type { Fingering, Press } from './fingering.ts';
import { handPosition } from './fingering-cost.ts';

/**
 * What the fingers do from one fingering to another. A finger in the air hangs over its own fret in the hand's position.
 * There and back the same fingers stay, slide, roll and move, all distances are the same, and what lands one way lifts the other;
 * because landing costs more than lifting, the costs differ by that. Where this is shown as a load, `CAUTION_ON_STRETCH` belongs.
 */
export function changeBetween(instrument: Instrument, from: Fingering, to: Fingering): Change {
  return changeOf(placedHand(instrument, from), placedHand(instrument, to));
}

/** A fingering in millimetres, worked out once for all changes from and to it. */
export interface PlacedHand {
  readonly instrument: Instrument;
  readonly presses: readonly Press[];
  /** Where the index finger is, or would be if it pressed; absent where only the thumb or nothing does. */
  readonly positionFret?: number;
}

export function placedHand(instrument: Instrument, { presses }: Fingering): PlacedHand {
  const index = presses.find(({ finger }) => finger === 1);
  const positionFret = index?.fret ?? handPosition(presses)?.fret;
  return { instrument, presses, ...(positionFret === undefined ? {} : { positionFret }) };
}

const FINGERS: readonly Finger[] = [1, 2, 3, 4, 'T'];

/** Both hands must be placed on the same instrument. */
export function changeOf(from: PlacedHand, to: PlacedHand): Change {
  const { instrument } = from;
  const moves: FingerMove[] = [];
  for (const finger of FINGERS) {
    const before = from.presses.find((press) => press.finger === finger);
    const after = to.presses.find((press) => press.finger === finger);
    if (before !== undefined && after !== undefined) moves.push(moveOf(instrument, before, after));
    else if (after !== undefined) {
      const distanceMm = throughAirMm(instrument, after, from.positionFret ?? to.positionFret);
      moves.push({ kind: 'lands', to: after, distanceMm, roomMm: targetMm(instrument, after.fret) });
    } else if (before !== undefined) {
      const distanceMm = throughAirMm(instrument, before, to.positionFret ?? from.positionFret);
      moves.push({ kind: 'lifts', from: before, distanceMm });
    }
  }
  const isHeld = moves.some((move) => (move.kind === 'stays' || move.kind === 'rolls') && move.to.finger !== 'T');
  const shift = isHeld ? undefined : shiftOf(instrument, from.positionFret, to.positionFret);
  const facts = { stringCount: instrument.openStrings.length, moves, ...(shift === undefined ? {} : { shift }) };
  return { ...facts, cost: changeCost(moves, shift?.distanceMm) };
}

function moveOf(instrument: Instrument, from: Press, to: Press): FingerMove {
  const sameStrings = from.from === to.from && from.to === to.to;
  if (sameStrings && from.fret === to.fret) return { kind: 'stays', from, to };
  const alongMm = Math.abs(tipMm(instrument, to.fret) - tipMm(instrument, from.fret));
  // Nobody lands beside the string while the finger keeps it, so that only the fret space has to be hit.
  if (sameStrings) {
    return { kind: 'slides', from, to, distanceMm: alongMm, roomMm: spaceMm(instrument, to.fret) };
  }
  const pitchMm = Math.max(pitchAtMm(instrument, from.fret), pitchAtMm(instrument, to.fret));
  const strings = Math.max(Math.abs(from.from - to.from), Math.abs(from.to - to.to));
  const distanceMm = Math.hypot(alongMm, strings * pitchMm);
  const keepsString = from.fret === to.fret && from.from <= to.to && to.from <= from.to;
  return {
    kind: keepsString ? 'rolls' : 'moves',
    from,
    to,
    distanceMm,
    roomMm: targetMm(instrument, to.fret),
  };
}

/** Between a pressing finger and the air over its own fret in a position. The thumb has no own fret: it only comes up and down. */
function throughAirMm(instrument: Instrument, { finger, fret }: Press, positionFret: number | undefined): number {
  if (finger === 'T' || positionFret === undefined) return HOVER_MM;
  return Math.hypot(HOVER_MM, tipMm(instrument, fret) - tipMm(instrument, positionFret + finger - 1));
}

function shiftOf(
  instrument: Instrument,
  fromFret: number | undefined,
  toFret: number | undefined,
): HandShift | undefined {
  if (fromFret === undefined || toFret === undefined || fromFret === toFret) return undefined;
  const distanceMm = Math.abs(tipMm(instrument, toFret) - tipMm(instrument, fromFret));
  return { fromFret, toFret, distanceMm, roomMm: spaceMm(instrument, toFret) };
}

/** The finger must hit its string and its fret space. */
function targetMm(instrument: Instrument, fret: number): number {
  return Math.min(spaceMm(instrument, fret), pitchAtMm(instrument, fret));
}

function tipMm({ scaleLengthMm, capoFret }: Instrument, fret: number): number {
  return fingertipMm(scaleLengthMm, capoFret + fret);
}

function spaceMm({ scaleLengthMm, capoFret }: Instrument, fret: number): number {
  return fretDistanceMm(scaleLengthMm, capoFret + fret - 1, capoFret + fret);
}

function pitchAtMm(instrument: Instrument, fret: number): number {
  return stringPitchAtFretMm(instrument, instrument.capoFret + fret);
}
