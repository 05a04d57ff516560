import { roomForTipsMm, staggerMm } from '../neck/fingertip.ts';
import { spoiledBeside } from './barre.ts';
import { EFFORT } from './effort-table.ts';
import { strainOf } from './finger-reach.ts';
import type { FingeringCost, PairReach, Press, SilentString } from './fingering.ts';
import type { HeldShape } from './held-shape.ts';

/** Index to little finger. */
const ALL_FINGERS = 4;

/** What a fingering costs. The presses stand in a fingering's order; what is known of them already comes along. */
export function costOf(
  held: HeldShape,
  presses: readonly Press[],
  widest: PairReach | undefined,
  position: HandPosition | undefined,
  silent: readonly SilentString[],
): FingeringCost {
  const reach = widest === undefined ? 0 : EFFORT.strain * strainOf(widest.reachMm, widest.limit) ** 2;
  const fingers = presses.length * EFFORT.finger + (presses.length < ALL_FINGERS ? 0 : EFFORT.noFingerFree);
  let barre = 0;
  let reversed = 0;
  let awkwardness =
    EFFORT.offItsFret * (position?.fretsOff ?? 0) + EFFORT.awayFromNut * fretsFromNut(presses, position);
  for (const { inner, by } of silent) if (inner && by === undefined) awkwardness += EFFORT.untouchedString;
  for (const [place, press] of presses.entries()) {
    barre += barreEffort(press);
    if (isThinBridge(press)) awkwardness += EFFORT.offItsFretByBridge * (position?.fretsOff ?? 0);
    if (press.finger === 4) awkwardness += EFFORT.littleFinger;
    if (press.finger === 'T') awkwardness += EFFORT.thumb;
    if (press.to > press.from && spoiledBeside(held.shape, press.fret, press.to) !== undefined) {
      awkwardness += EFFORT.liftedBarre;
    }
    const next = presses[place + 1];
    if (next !== undefined && isReversed(press, next)) reversed += EFFORT.reversed;
    if (presses[place - 1]?.fret !== press.fret && isCrowded(held, presses, place)) awkwardness += EFFORT.crowded;
  }
  return { reach, fingers, barre, awkwardness, reversed, total: reach + fingers + barre + awkwardness + reversed };
}

/** True for two presses in one fret, bass side first, where the first finger is the higher one. */
export function isReversed(bassSide: Press, trebleSide: Press): boolean {
  return (
    bassSide.fret === trebleSide.fret &&
    bassSide.finger !== 'T' &&
    trebleSide.finger !== 'T' &&
    bassSide.finger > trebleSide.finger
  );
}

/** True when the tips in the fret of the press at `place`, the first of its fret, have no room beside each other. */
export function isCrowded(held: HeldShape, presses: readonly Press[], place: number): boolean {
  const first = presses[place];
  if (first === undefined || first.finger === 'T') return false;
  const pitchMm = held.pitchMm[first.from] ?? 0;
  let slantMm = 0;
  let before = first;
  for (let at = place + 1; at < presses.length; at += 1) {
    const here = presses[at];
    if (here === undefined || here.fret !== first.fret || here.finger === 'T') break;
    slantMm += staggerMm(held.model.tipWidthMm, (here.from - before.to) * pitchMm);
    before = here;
  }
  if (slantMm === 0) return false;
  const { scaleLengthMm, capoFret } = held.instrument;
  return slantMm > roomForTipsMm(scaleLengthMm, capoFret + first.fret);
}

/** By how many frets a hand that presses one finger alone stands above the first position, where its fret lies within that. */
function fretsFromNut([only, ...others]: readonly Press[], position: HandPosition | undefined): number {
  if (position === undefined || only === undefined || others.length > 0 || only.fret > ALL_FINGERS) return 0;
  return position.fret - 1;
}

function barreEffort(press: Press): number {
  const { finger, from, to, sounding } = press;
  if (from === to || finger === 'T') return 0;
  const further = Math.max(0, sounding - FEWEST_BARRED) * EFFORT.barredString;
  const bridged = to - from + 1 - sounding;
  if (isThinBridge(press)) return barreStrength(finger) + EFFORT.thinBridge;
  const bridging = finger === 1 ? 0 : bridged * EFFORT.bridgedString;
  return barreStrength(finger) + further + bridging;
}

/**
 * True where the index finger lies flat for two strings alone, over one or two that are stopped higher or silent. Farther it is the full
 * barre, which is learnt as one thing whatever lies over it.
 */
function isThinBridge({ finger, from, to, sounding }: Press): boolean {
  const bridged = to - from + 1 - sounding;
  return finger === 1 && sounding === FEWEST_BARRED && bridged > 0 && bridged <= 2;
}

/** Strings that a finger laid flat sounds at least. */
const FEWEST_BARRED = 2;

function barreStrength(finger: 1 | 2 | 3 | 4): number {
  if (finger === 1) return EFFORT.indexBarre;
  if (finger === 2) return EFFORT.middleBarre;
  return finger === 3 ? EFFORT.ringBarre : EFFORT.littleBarre;
}

/** Where the hand stands: the index finger's own fret, and by how many frets in all the fingers are off theirs. */
export interface HandPosition {
  readonly fret: number;
  readonly fretsOff: number;
}

/**
 * The position that keeps fingers nearest to their own frets; the lowest of equals. Nothing without
 * fingers; the thumb has no fret of its own.
 */
export function handPosition(presses: readonly Press[]): HandPosition | undefined {
  let best: HandPosition | undefined;
  for (const { finger, fret } of presses) {
    if (finger === 'T') continue;
    // The best position has at least one finger in its own fret; the index finger cannot stand behind the nut.
    const position = Math.max(1, fret - finger + 1);
    let off = 0;
    for (const other of presses) {
      if (other.finger !== 'T') off += Math.abs(other.fret - (position + other.finger - 1));
    }
    if (best === undefined || off < best.fretsOff || (off === best.fretsOff && position < best.fret)) {
      best = { fret: position, fretsOff: off };
    }
  }
  return best;
}
