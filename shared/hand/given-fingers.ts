import type { Instrument } from '../neck/instrument.ts';
import { type Shape, stringNumber } from '../neck/shape.ts';
import { listed } from '../text/counted.ts';
import { covers, spoiledBeside, spoiledUnder } from './barre.ts';
import { type Finger, fingerName } from './finger.ts';
import type { FingerFault, FingerFaultCode, Fingering, PairReach, Press } from './fingering.ts';
import { type HandSize, handModel } from './hand.ts';
import { type HeldShape, heldShape } from './held-shape.ts';
import { makeFingering } from './make-fingering.ts';
import { CAUTION_IN_SHORT } from './reach.ts';
import { tellReach } from './tell-fingering.ts';

/** What fingers that a lesson gives come to: the fingering where the fingers can be placed, and everything that speaks against it. */
export interface JudgedFingers {
  /** Absent where the fingers cannot be placed at all; present when they are only too far apart. */
  readonly fingering?: Fingering;
  readonly faults: readonly FingerFault[];
}

/**
 * Judges fingers in chart order, as a lesson gives them: 0 where no finger is. Codes of the faults:
 * `fingers.count`, `fingers.not-a-finger`, `fingers.missing` (a stopped string without a finger), `fingers.on-open` (a finger on a
 * string that is open or not to sound), `fingers.two-frets`, `fingers.barre` (laid across a string that is open or stopped lower),
 * `fingers.too-wide` (more strings than the finger covers), `fingers.crossed`, `fingers.thumb`, `fingers.out-of-reach`.
 */
export function judgeFingers(
  instrument: Instrument,
  shape: Shape,
  given: readonly (number | 'T')[],
  hand: HandSize,
): JudgedFingers {
  const strings = shape.map((_, index) => index);
  if (given.length !== shape.length) {
    const message = `${given.length} ${given.length === 1 ? 'finger' : 'fingers'} for ${shape.length} strings; write 0 for an open or muted string.`;
    return { faults: [fault('fingers.count', message, strings)] };
  }
  const onStrings = strings.flatMap((index) => faultOnString(shape, given, index));
  if (onStrings.length > 0) return { faults: onStrings };
  const held = heldShape(instrument, shape, handModel(hand));
  const placed = FINGERS.flatMap((finger) => placeFinger(held, given, finger));
  const faults = placed.flatMap((one) => one.faults);
  const presses = placed.flatMap((one) => one.press);
  // One crossing is told: the others mostly come from the same two fingers that changed places.
  faults.push(...crossings(presses).slice(0, 1));
  if (faults.length > 0) return { faults };
  const fingering = makeFingering(held, inOrder(presses));
  const { widest } = fingering;
  return { fingering, faults: widest?.verdict === 'out-of-reach' ? [tooFar(widest, presses, hand)] : [] };
}

const FINGERS: readonly Finger[] = [1, 2, 3, 4, 'T'];

function faultOnString(shape: Shape, given: readonly (number | 'T')[], index: number): readonly FingerFault[] {
  const finger = given[index];
  const fret = shape[index];
  const string = stringNumber(index, shape.length);
  if (finger !== 0 && !FINGERS.some((known) => known === finger)) {
    const message = `Fingers are 1 to 4 from index to little finger, T for the thumb, 0 for none; there is no finger ${finger}.`;
    return [fault('fingers.not-a-finger', message, [index])];
  }
  const stopped = fret !== 'muted' && fret !== 0;
  if (stopped && finger === 0) {
    const message = `String ${string} is stopped at fret ${fret}, but no finger is given for it.`;
    return [fault('fingers.missing', message, [index])];
  }
  if (!stopped && finger !== 0) {
    const message = `String ${string} is ${fret === 'muted' ? 'muted' : 'open'}, so no finger is on it; write 0.`;
    return [fault('fingers.on-open', message, [index])];
  }
  return [];
}

interface Placed {
  readonly press: readonly Press[];
  readonly faults: readonly FingerFault[];
}

function placeFinger(held: HeldShape, given: readonly (number | 'T')[], finger: Finger): Placed {
  const { shape } = held;
  const strings = given.flatMap((one, index) => (one === finger ? [index] : []));
  const from = strings[0];
  const to = strings.at(-1);
  if (from === undefined || to === undefined) return { press: [], faults: [] };
  const frets = new Set(strings.map((index) => shape[index]));
  const fret = shape[from];
  if (frets.size > 1 || typeof fret !== 'number') {
    const message = `The ${fingerName(finger)} cannot stop frets ${listed([...frets].map(String))} at once: every string under it sounds the same fret.`;
    return { press: [], faults: [fault('fingers.two-frets', message, strings)] };
  }
  if (finger === 'T' && to > 0) {
    const message = `The thumb comes over the edge of the neck and stops string ${shape.length} only.`;
    return { press: [], faults: [fault('fingers.thumb', message, strings)] };
  }
  const press = { finger, fret, from, to, sounding: strings.length };
  const spoiled = spoiledUnder(shape, fret, from, to);
  const faults: FingerFault[] = [];
  if (spoiled !== undefined) {
    const string = stringNumber(spoiled.stringIndex, shape.length);
    const why = spoiled.kind === 'open' ? 'is to ring open' : `is stopped lower, at fret ${shape[spoiled.stringIndex]}`;
    const message = `The ${fingerName(finger)} laid flat at fret ${fret} would stop string ${string} too, which ${why}.`;
    faults.push(fault('fingers.barre', message, [...strings, spoiled.stringIndex]));
  } else if (!covers(held, finger, fret, from, to)) {
    const across = `strings ${stringNumber(from, shape.length)} to ${stringNumber(to, shape.length)}`;
    const beside = spoiledBeside(shape, fret, to);
    const free = beside === undefined ? '' : ` and keep string ${stringNumber(beside.stringIndex, shape.length)} free`;
    const message = `The ${fingerName(finger)} is not long enough to lie across ${across}${free}.`;
    faults.push(fault('fingers.too-wide', message, strings));
  }
  return { press: [press], faults };
}

/** Pairs of fingers that would have to cross, or to lie over each other. */
function crossings(presses: readonly Press[]): readonly FingerFault[] {
  const faults: FingerFault[] = [];
  for (const [place, low] of presses.entries()) {
    for (const high of presses.slice(place + 1)) {
      if (low.finger === 'T' || high.finger === 'T') continue;
      const message = crossing(low, high, high.finger - low.finger);
      if (message !== undefined) faults.push(fault('fingers.crossed', message, [low.from, high.from]));
    }
  }
  return faults;
}

/** What is wrong with a pair, the lower finger first; nothing where it is how hands hold. `apart` is 1 for neighbouring fingers. */
function crossing(low: Press, high: Press, apart: number): string | undefined {
  const [lower, higher] = [fingerName(low.finger), fingerName(high.finger)];
  if (low.fret > high.fret) {
    return `The ${higher} at fret ${high.fret} would cross behind the ${lower} at fret ${low.fret}.`;
  }
  if (low.fret < high.fret || low.to < high.from) return undefined;
  if (low.from > high.to) {
    // Neighbouring fingers change places without crossing; two fingers with a third between them do not.
    if (apart === 1) return undefined;
    return `In fret ${low.fret} the ${higher} would cross over the ${lower}: the lower finger belongs nearer the bass side.`;
  }
  return `In fret ${low.fret} the ${lower} and the ${higher} would lie over each other.`;
}

function tooFar(widest: PairReach, presses: readonly Press[], hand: HandSize): FingerFault {
  const message = `${tellReach(widest, hand)} ${CAUTION_IN_SHORT}`;
  const strings = presses.filter(({ finger }) => widest.pair.includes(finger)).map(({ from }) => from);
  return fault('fingers.out-of-reach', message, strings);
}

/** By fret, then from the bass side, the thumb last. */
function inOrder(presses: readonly Press[]): readonly Press[] {
  const thumbLast = (press: Press) => (press.finger === 'T' ? 1 : 0);
  return [...presses].sort(
    (one, other) => thumbLast(one) - thumbLast(other) || one.fret - other.fret || one.from - other.from,
  );
}

function fault(code: FingerFaultCode, message: string, strings: readonly number[]): FingerFault {
  return { code, message, strings };
}
