import type { Instrument } from '../neck/instrument.ts';
import type { Fret, Shape } from '../neck/shape.ts';
import { type Finger, fingerRow } from './finger.ts';
import type { Fingering } from './fingering.ts';
import type { JudgedFingers } from './given-fingers.ts';
import type { HandSize } from './hand.ts';
import { givenFingers } from './kept-fingerings.ts';

/** A shape with the fingers that keep it, 0 where none is, in chart order; on whose instrument, in whose hand. */
export interface KeptShape {
  readonly instrument: Instrument;
  readonly hand: HandSize;
  readonly shape: Shape;
  readonly fingers: readonly (Finger | 0)[];
}

/** A note on one string while the others keep their fingers. The string is a place in chart order; fret 0 lets it ring open. */
export interface AddedNote {
  readonly stringIndex: number;
  readonly fret: number;
}

/** A fingering as a shape that is kept. */
export function keptBy(instrument: Instrument, hand: HandSize, shape: Shape, { fingers }: Fingering): KeptShape {
  return { instrument, hand, shape, fingers: fingers.map((finger) => finger ?? 0) };
}

/** The same shape with only some of its strings kept: the fingers of the others are free. `keeps` is asked for places in chart order. */
export function keepingOnly(kept: KeptShape, keeps: (stringIndex: number) => boolean): KeptShape {
  const isFree = (fret: Fret | undefined, at: number) => fret !== 0 && !keeps(at);
  return {
    ...kept,
    shape: kept.shape.map((fret, at): Fret => (isFree(fret, at) ? 'muted' : fret)),
    fingers: kept.fingers.map((finger, at) => (isFree(kept.shape[at], at) ? 0 : finger)),
  };
}

/** What comes of a note played by this finger while every other string keeps its own. */
export function judgeAdded(kept: KeptShape, note: AddedNote, finger: Finger | 0): JudgedFingers {
  const { instrument, hand, shape, fingers } = withAdded(kept, note, finger);
  return givenFingers(instrument, shape, fingers, hand);
}

/**
 * The fingers that can play the note while every other string keeps its own; 0 for a string that can ring open. The finger that
 * holds the note's own string may leave it, because the note takes the string. Empty where none can.
 */
export function fingersForAdded(kept: KeptShape, note: AddedNote): readonly (Finger | 0)[] {
  return triesFor(note).filter((finger) => judgeAdded(kept, note, finger).faults.length === 0);
}

/** Whether any finger can, which is quicker to say. */
export function canAdd(kept: KeptShape, note: AddedNote): boolean {
  return triesFor(note).some((finger) => judgeAdded(kept, note, finger).faults.length === 0);
}

/**
 * The fingers of the shape that can lift, each alone, so that this finger plays the note while all others keep their strings; 0 for a
 * string that rings open. Empty where no lifted finger helps.
 */
export function liftsForAdded(kept: KeptShape, note: AddedNote, finger: Finger | 0): readonly Finger[] {
  const holding = [...new Set(kept.fingers)].filter((one): one is Finger => one !== 0);
  return holding.filter((lifted) => judgeAdded(lifting(kept, lifted), note, finger).faults.length === 0);
}

/** The shape without the strings that a finger holds: it is free, and they fall silent. */
function lifting(kept: KeptShape, lifted: Finger): KeptShape {
  return keepingOnly(kept, (at) => kept.fingers[at] !== lifted);
}

function triesFor({ fret }: AddedNote): readonly (Finger | 0)[] {
  return fret === 0 ? [0] : PLAYING;
}

/** Fingers that hold nothing of the shape, from index to little finger. */
export function freeFingers({ fingers }: KeptShape): readonly Finger[] {
  return PLAYING.filter((finger) => !fingers.includes(finger));
}

/**
 * The fret nearest to the note that a finger reaches on the note's string, while every other string keeps its own: at ease, and
 * only where no fret is at ease with a stretch.
 */
function nearestFret(kept: KeptShape, note: AddedNote, finger: Finger): number | undefined {
  const last = kept.instrument.frets - kept.instrument.capoFret;
  let atEase: number | undefined;
  let atAll: number | undefined;
  const isNearer = (fret: number, than: number | undefined) =>
    than === undefined || Math.abs(fret - note.fret) < Math.abs(than - note.fret);
  for (let fret = 1; fret <= last; fret += 1) {
    if (!isNearer(fret, atEase)) continue;
    const { fingering, faults } = judgeAdded(kept, { ...note, fret }, finger);
    if (fingering === undefined || faults.length > 0) continue;
    if (fingering.verdict === 'comfortable') atEase = fret;
    if (isNearer(fret, atAll)) atAll = fret;
  }
  return atEase ?? atAll;
}

/** The free finger that comes nearest to a note, and the fret that it reaches; of equals the higher finger. */
export function nearestFinger(
  kept: KeptShape,
  note: AddedNote,
): { readonly finger: Finger; readonly fret: number } | undefined {
  const reached = freeFingers(kept).flatMap((finger) => {
    const fret = nearestFret(kept, note, finger);
    return fret === undefined ? [] : [{ finger, fret }];
  });
  const off = ({ fret }: { readonly fret: number }) => Math.abs(fret - note.fret);
  return [...reached].sort((a, b) => off(a) - off(b) || fingerRow(b.finger) - fingerRow(a.finger))[0];
}

/** Whether fingers can play all of the notes at once while every string without one keeps its own. */
export function canPlayTogether(kept: KeptShape, notes: readonly AddedNote[]): boolean {
  return canPlaceAll(leavingStringsTo(kept, notes), notes);
}

/** The shape without the strings that notes take: their fingers are free, and nothing is asked of them. */
export function leavingStringsTo(kept: KeptShape, notes: readonly AddedNote[]): KeptShape {
  const taken = (at: number) => notes.some(({ stringIndex }) => stringIndex === at);
  return {
    ...kept,
    shape: kept.shape.map((fret, at): Fret => (taken(at) ? 'muted' : fret)),
    fingers: kept.fingers.map((finger, at) => (taken(at) ? 0 : finger)),
  };
}

function canPlaceAll(kept: KeptShape, notes: readonly AddedNote[]): boolean {
  const [first, ...others] = notes;
  if (first === undefined) return true;
  // A hand that cannot place some of the notes cannot place all of them: fingers are only added.
  return fingersForAdded(kept, first).some((finger) => canPlaceAll(withAdded(kept, first, finger), others));
}

function withAdded(kept: KeptShape, { stringIndex, fret }: AddedNote, finger: Finger | 0): KeptShape {
  return {
    ...kept,
    shape: kept.shape.map((held, at): Fret => (at === stringIndex ? fret : held)),
    fingers: kept.fingers.map((held, at) => (at === stringIndex ? finger : held)),
  };
}

const PLAYING: readonly Finger[] = [1, 2, 3, 4];
