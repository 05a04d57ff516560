import type { Instrument } from '../neck/instrument.ts';
import type { Shape } from '../neck/shape.ts';
import { covers, spoiledUnder } from './barre.ts';
import { type Finger, fingerRow } from './finger.ts';
import type { Fingering, FingeringWishes, Press } from './fingering.ts';
import { type HandSize, handModel } from './hand.ts';
import { type HeldShape, heldShape } from './held-shape.ts';
import { makeFingering } from './make-fingering.ts';
import type { ReachVerdict } from './reach.ts';

/** A string that a finger has to stop, as a place in chart order. */
interface Stop {
  readonly stringIndex: number;
  readonly fret: number;
}

/** What stays the same while one shape is searched. */
interface Search {
  readonly held: HeldShape;
  /** By fret, then from the bass side: the order in which hands count their fingers off. */
  readonly stops: readonly Stop[];
  /** Fingers that the stops from here on need at least. */
  readonly fewest: readonly number[];
  /** The thumb's press, where it takes part. */
  readonly thumb: readonly Press[];
  readonly found: Fingering[];
}

const LAST_FINGER = 4;

/**
 * Every way to hold the shape, best first: at ease before stretched before out of reach, then by cost, then nearer the nut, then by finger numbers.
 * Empty where four fingers cannot stop it. Exact: no way that hands hold is left out.
 *
 * Hands hold so: a higher finger is never at a lower fret than a lower one; in one fret the lower finger is nearer the bass side,
 * except that two neighbouring fingers may change places; a finger lies across neighbouring strings when it spoils none of them.
 */
export function fingeringsOf(
  instrument: Instrument,
  shape: Shape,
  hand: HandSize,
  wishes: FingeringWishes = {},
): readonly Fingering[] {
  const held = heldShape(instrument, shape, handModel(hand));
  const found: Fingering[] = [];
  const stops = stopsOf(shape);
  place({ held, stops, fewest: fewestFingers(shape, stops), thumb: [], found }, 0, 0, undefined, []);
  const [first] = shape;
  if (wishes.thumb === true && typeof first === 'number' && first > 0) {
    const others = stops.filter((stop) => stop.stringIndex !== 0);
    const thumb: Press = { finger: 'T', fret: first, from: 0, to: 0, sounding: 1 };
    place({ held, stops: others, fewest: fewestFingers(shape, others), thumb: [thumb], found }, 0, 0, undefined, []);
  }
  return found.sort(byWelcome);
}

function stopsOf(shape: Shape): readonly Stop[] {
  const stops: Stop[] = [];
  for (const [stringIndex, fret] of shape.entries()) {
    if (fret !== 'muted' && fret > 0) stops.push({ stringIndex, fret });
  }
  return stops.sort((one, other) => one.fret - other.fret || one.stringIndex - other.stringIndex);
}

/** Counted from the end: each finger takes the longest run of strings that it could lie across. */
function fewestFingers(shape: Shape, stops: readonly Stop[]): readonly number[] {
  const fewest = new Array<number>(stops.length + 1).fill(0);
  for (let at = stops.length - 1; at >= 0; at -= 1) {
    fewest[at] = 1 + (fewest[runEnd(shape, stops, at) + 1] ?? 0);
  }
  return fewest;
}

/** The last stop that a finger on the stop `at` could lie across. */
function runEnd(shape: Shape, stops: readonly Stop[], at: number): number {
  const first = stops[at];
  let end = at;
  while (first !== undefined) {
    const next = stops[end + 1];
    if (next?.fret !== first.fret) break;
    if (spoiledUnder(shape, first.fret, first.stringIndex, next.stringIndex) !== undefined) break;
    end += 1;
  }
  return end;
}

/**
 * Places fingers on the stops from `at` on. `used` is the highest finger placed; `owed` is the finger below it, which the next press
 * of the same fret must take, where the two change places.
 */
function place(search: Search, at: number, used: number, owed: Finger | undefined, presses: readonly Press[]): void {
  const { held, stops, fewest } = search;
  const first = stops[at];
  if (first === undefined) {
    if (owed === undefined) search.found.push(makeFingering(held, [...presses, ...search.thumb]));
    return;
  }
  const end = runEnd(held.shape, stops, at);
  for (let last = at; last <= end; last += 1) {
    const to = stops[last]?.stringIndex ?? first.stringIndex;
    const rest = fewest[last + 1] ?? 0;
    const press = (finger: Finger): readonly Press[] => [
      ...presses,
      { finger, fret: first.fret, from: first.stringIndex, to, sounding: last - at + 1 },
    ];
    if (owed !== undefined) {
      if (covers(held, owed, first.fret, first.stringIndex, to)) place(search, last + 1, used, undefined, press(owed));
      continue;
    }
    const changes = stops[last + 1]?.fret === first.fret;
    for (let number = used + 1; number + rest <= LAST_FINGER; number += 1) {
      const finger = number as Finger;
      if (covers(held, finger, first.fret, first.stringIndex, to))
        place(search, last + 1, number, undefined, press(finger));
      const higher = (number + 1) as Finger;
      if (!changes || number + rest > LAST_FINGER) continue;
      if (covers(held, higher, first.fret, first.stringIndex, to))
        place(search, last + 1, number + 1, finger, press(higher));
    }
  }
}

const VERDICTS: readonly ReachVerdict[] = ['comfortable', 'stretched', 'out-of-reach'];

function byWelcome(one: Fingering, other: Fingering): number {
  return (
    VERDICTS.indexOf(one.verdict) - VERDICTS.indexOf(other.verdict) ||
    millionths(one.cost.total) - millionths(other.cost.total) ||
    (one.positionFret ?? 0) - (other.positionFret ?? 0) ||
    compareFingers(one, other)
  );
}

/** Equal costs must stay equal however the arithmetic rounds them, or their order would change with a capo. */
function millionths(effort: number): number {
  return Math.round(effort * 1e6);
}

/** So that ties keep one order: the fingering whose fingers are lower from the bass side on. */
function compareFingers(one: Fingering, other: Fingering): number {
  for (const [index, finger] of one.fingers.entries()) {
    const beside = other.fingers[index];
    if (finger !== beside) return orderOf(finger) - orderOf(beside);
  }
  return 0;
}

function orderOf(finger: Finger | undefined): number {
  return finger === undefined ? -1 : fingerRow(finger);
}
