import { stringNumber } from '../neck/shape.ts';
import { capitalised } from '../text/capital.ts';
import { fingerList, fingerName } from './finger.ts';
import type { Fingering, FingeringReason, PairReach, Press } from './fingering.ts';
import { describeHand, type HandSize } from './hand.ts';
import { CAUTION_ON_STRETCH } from './reach.ts';

/**
 * What a teacher would say about a fingering for this hand, in a few short sentences; with the caution where it is a stretch.
 * `The index finger lies across strings 2 and 1 at fret 1. One finger a fret, from fret 1 up.`
 */
export function tellFingering({ reasons, presses, fingers }: Fingering, hand: HandSize): string {
  const strings = fingers.length;
  const told = reasons.map((reason) => tellReason(reason, strings, hand));
  const barres = presses.filter(({ from, to }) => from !== to).length;
  if (barres > 1) told.push('Two fingers lie flat at once, which is hard.');
  const plain = told.length === 0 ? presses.map((press) => `${tellPress(press, strings)}.`) : told;
  const isStretch = reasons.some(({ kind }) => kind === 'stretch');
  return [...plain, ...(isStretch ? [CAUTION_ON_STRETCH] : [])].join(' ');
}

/** `Index and little finger are 82 mm apart; a medium hand has 73 mm at ease and about 98 mm at most.` */
export function tellReach(reach: PairReach, hand: HandSize): string {
  const { pair, limit, verdict } = reach;
  const apart = `${capitalised(fingerList(pair))} are ${tellApart(reach)}`;
  const comfortable = `${Math.round(limit.comfortableMm)} mm at ease`;
  const greatest = `about ${Math.round(limit.greatestMm)} mm at most`;
  return verdict === 'out-of-reach'
    ? `${apart}, out of reach: ${describeHand(hand)} has ${greatest}.`
    : `${apart}; ${describeHand(hand)} has ${comfortable} and ${greatest}.`;
}

/** How far two fingers are apart: `42 mm apart`; `in one fret` where bending one of them takes up all of it. */
export function tellApart({ reachMm }: PairReach): string {
  const wholeMm = Math.round(reachMm);
  return wholeMm === 0 ? 'in one fret' : `${wholeMm} mm apart`;
}

function tellReason(reason: FingeringReason, strings: number, hand: HandSize): string {
  switch (reason.kind) {
    case 'open-strings':
      return 'All strings ring open: no finger is needed.';
    case 'stretch':
      return tellReach(reason.reach, hand);
    case 'barre':
    case 'half-barre':
      return `${tellPress(reason.press, strings)}.`;
    case 'lifted-barre':
      return `Its middle bends up, so that string ${stringNumber(reason.overString, strings)} is free.`;
    case 'one-finger-a-fret':
      return `One finger a fret, from fret ${reason.positionFret} up.`;
    case 'side-by-side': {
      const side = `${capitalised(fingerList(reason.fingers))} stand side by side in fret ${reason.fret}`;
      return reason.crowded ? `${side}, with hardly any room.` : `${side}.`;
    }
    case 'reversed':
      return `The ${fingerName(reason.fingers[0])} is nearer the bass side than the ${fingerName(reason.fingers[1])}, the other way round than usual.`;
    case 'thumb':
      return `The thumb comes over the edge of the neck at fret ${reason.press.fret}.`;
    case 'touches-silent-string':
      return `The ${fingerName(reason.finger)} touches string ${stringNumber(reason.stringIndex, strings)} and keeps it silent.`;
    case 'silent-string-untouched':
      return `Nothing touches string ${stringNumber(reason.stringIndex, strings)}: damp it, or pluck the others.`;
  }
}

function tellPress({ finger, fret, from, to }: Press, strings: number): string {
  const first = stringNumber(from, strings);
  const last = stringNumber(to, strings);
  if (from === to) return `${capitalised(fingerName(finger))} on string ${first} at fret ${fret}`;
  const across =
    to - from + 1 === strings ? 'all strings' : `strings ${first} ${to - from === 1 ? 'and' : 'to'} ${last}`;
  return `The ${fingerName(finger)} lies across ${across} at fret ${fret}`;
}
