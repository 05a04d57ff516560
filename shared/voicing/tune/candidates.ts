import { type PlacedHands, placedHands } from '../../hand/change-arcs.ts';
import { placedHand } from '../../hand/change-between.ts';
import { areCrossed } from '../../hand/crossed.ts';
import { EFFORT } from '../../hand/effort-table.ts';
import type { Press } from '../../hand/fingering.ts';
import type { ChordInHand, TuneGround } from './ground.ts';
import type { InsideWay, OutsideWay } from './inside-way.ts';
import { type NoteOnNeck, notesInside } from './notes-inside.ts';
import { HAND_POINTS } from './tune-table.ts';

/** One note in one way to have it. */
export interface Candidate {
  readonly note: NoteOnNeck;
  readonly way: InsideWay | OutsideWay;
}

/** All that a tune can have over one chord, and the hands that hold it. */
export interface Candidates {
  readonly inHand: ChordInHand;
  readonly list: readonly Candidate[];
  /** The different ones. */
  readonly hands: PlacedHands;
  /** By candidate, its place among the hands: many notes are had without moving a finger. */
  readonly handOf: readonly number[];
}

/** Every note of the scale inside the shape in every way that leaves the ringing strings alone. */
export function candidatesOver(ground: TuneGround, inHand: ChordInHand): Candidates {
  const { scale, strictly = false } = ground;
  const notes = notesInside({ ...inHand.held, chord: inHand.chord.symbol, scale, strictly });
  return candidatesFrom(
    inHand,
    notes.flatMap((note) => note.ways.filter((way) => leavesRinging(ground, way)).map((way) => ({ note, way }))),
  );
}

export function candidatesFrom(inHand: ChordInHand, list: readonly Candidate[]): Candidates {
  const presses: (readonly Press[])[] = [];
  const places = new Map<string, number>();
  const handOf = list.map(({ way }) => {
    const key = way.presses.map(({ finger, fret, from, to }) => `${finger}:${fret}:${from}:${to}`).join(' ');
    const known = places.get(key);
    if (known !== undefined) return known;
    places.set(key, presses.length);
    return presses.push(way.presses) - 1;
  });
  return { inHand, list, hands: placedHands(presses.map(placedHand)), handOf };
}

/** True where no string that must ring is stopped otherwise than the shape stops it. */
export function leavesRinging({ instrument, ring = [] }: TuneGround, { takes }: Pick<InsideWay, 'takes'>): boolean {
  const strings = instrument.openStrings.length;
  return !takes.some((stringIndex) => ring.includes(strings - stringIndex));
}

/** True for two notes on one string whose fingers are crossed while one shape is in the hand. */
export function crossEachOther(one: Candidate, other: Candidate): boolean {
  return areCrossed({ ...one.note, finger: one.way.finger }, { ...other.note, finger: other.way.finger });
}

/** What it costs the hands to play two notes in a row over one chord, beside the change of the fingers. Unit: points. */
export function pointsOfPair(one: Candidate, other: Candidate): number {
  const strings = Math.abs(one.note.stringIndex - other.note.stringIndex);
  return (
    (goesOn(one, other) ? HAND_POINTS.sameFinger : 0) +
    HAND_POINTS.skippedString * Math.max(0, strings - 1) +
    (areReversed(one, other) ? HAND_POINTS.holdEffort * EFFORT.reversed : 0)
  );
}

/** True where one finger has both notes and must go from the one to the other; where it lies flat it has both at once. */
function goesOn(one: Candidate, other: Candidate): boolean {
  const { finger } = one.way;
  if (finger === undefined || finger !== other.way.finger) return false;
  const [from, to] = [one, other].map(({ way }) => way.presses.find((press) => press.finger === finger));
  return from?.fret !== to?.fret || from?.from !== to?.from || from?.to !== to?.to;
}

/**
 * True for two notes on different strings whose fingers stand as the hand model never lets them, or not gladly, stand at once: the
 * higher finger at the lower fret, or in one fret nearer the bass side. What the shape itself asks for is the shape's.
 */
function areReversed(one: Candidate, other: Candidate): boolean {
  const [here, there] = [one.way.finger, other.way.finger];
  if (one.note.stringIndex === other.note.stringIndex || typeof here !== 'number' || typeof there !== 'number')
    return false;
  if (here === there || (one.way.sort === 'own' && other.way.sort === 'own')) return false;
  if (one.way.sort === 'outside' || other.way.sort === 'outside') return false;
  const frets = one.note.fret - other.note.fret;
  const order = frets === 0 ? one.note.stringIndex - other.note.stringIndex : frets;
  return order * (here - there) < 0;
}

/** What it costs the hand to have the note so, beyond the shape. Unit: points. */
export function pointsOfHold({ held }: ChordInHand, { note, way }: Candidate): number {
  const effort = Math.max(0, way.effort - held.fingering.cost.total);
  const stretched = way.verdict === 'stretched' && held.fingering.verdict !== 'stretched' ? HAND_POINTS.stretched : 0;
  const { free, flat, lifted } = HAND_POINTS;
  const sort = { own: 0, open: 0, free, flat, lifted, outside: lifted }[way.sort];
  const givenUp = HAND_POINTS.givenUp * way.takes.filter((stringIndex) => stringIndex !== note.stringIndex).length;
  return givenUp + HAND_POINTS.holdEffort * effort + stretched + sort;
}
